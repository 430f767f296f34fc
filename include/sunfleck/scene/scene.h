#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/sun/place.h"

#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

/// The garden as its owner describes it, checked. Lengths are metres unless the name says
/// otherwise; plan points are in the user's plan (see PlanFrame); every bearing here is true,
/// whichever of the three kinds the file gave.
namespace sunfleck::scene {

/// What every thing in a scene has: its id, its free name and where in the file it stands.
struct Label {
    std::string id;       ///< letters of any script, digits, '_'; unique; NFC
    std::string name;     ///< free text; the id when the file gives none
    std::string pointer;  ///< JSON pointer of the object, such as "/benches/0"
};

/// A height: above the ground under the object's own anchor, or absolute in the scene's z.
struct Height {
    double value_m = 0.0;
    bool is_absolute = false;
};

/// A stretch of every year, both ends included; may pass new year.
struct YearSpan {
    MonthDay from;
    MonthDay to;
    [[nodiscard]] bool contains(Date date) const;
};

struct HorizonPoint {
    Angle azimuth;  ///< true
    Angle altitude;
};

/// Monthly normals of the site's climate; a missing column is empty.
struct MonthlyNormals {
    std::vector<double> max_temperature_c;
    std::vector<double> min_temperature_c;
    std::vector<double> relative_humidity_percent;
    std::vector<double> dew_point_c;
    std::vector<double> wind_m_s;
    std::vector<double> sunshine_h;
    std::vector<double> radiation_mj_m2;
    std::vector<double> rain_mm;
    std::vector<double> rain_days;
};

struct Site {
    std::string name;
    sun::Place place;
    std::string time_zone;
    std::optional<int> year;
    Angle plan_up_bearing;  ///< true bearing of the plan's y axis
    std::optional<Angle> magnetic_declination;
    double albedo = 0.20;
    std::vector<HorizonPoint> horizon;  ///< by azimuth ascending; empty: level
    MonthlyNormals normals;
};

/// The ground: a plane through the origin.
struct Ground {
    Angle slope;             ///< 0 level
    Angle downhill_bearing;  ///< true
};

/// One level of a bench: a strip along its front edge.
struct Tier {
    double height_m = 0.0;    ///< top above the bench's anchor ground
    double set_back_m = 0.0;  ///< from the bench's front edge to the strip's front edge
    double depth_m = 0.0;
    std::optional<double> max_load_kg;
    bool closed_riser = false;  ///< a board closes the front below this tier down to the next
};

/// A spot placed by hand.
struct ExplicitSpot {
    double along_m = 0.0;       ///< from the first corner along the front edge
    double from_front_m = 0.0;  ///< from the front edge
    int tier = 1;               ///< from 1, the lowest
    std::string name;
    std::optional<double> receiver_height_m;
};

/// A bench. Its front edge runs from the first corner along `bearing`; the bench lies to the
/// left of that line as one walks along it.
struct Bench {
    Label label;
    std::vector<Vec2> outline;  ///< counter-clockwise, outline[0] the first corner, [0]->[1] front
    bool is_rectangle = true;
    Angle bearing;            ///< of the front edge
    double length_m = 0.0;    ///< of the front edge
    double depth_m = 0.0;     ///< rectangle only: front to back over all tiers
    std::vector<Tier> tiers;  ///< by height ascending, at least one
    double thickness_m = 0.03;
    double board_width_m = 0.0;  ///< slatted top: boards along the bench; 0: a closed top
    double board_gap_m = 0.0;
    bool has_legs = true;
    double spot_pitch_m = 0.30;
    std::optional<int> rows;  ///< rows of spots on each tier; else as many as the pitch allows
    std::vector<ExplicitSpot> explicit_spots;
    std::optional<double> receiver_height_m;
    std::optional<double> base_z_m;  ///< absolute ground level of the anchor, when given
};

/// A single-post stand: one top on one post, one spot.
struct PostStand {
    Label label;
    Vec2 position;
    Angle bearing;  ///< of one side of the top
    double height_m = 1.0;
    double top_side_m = 0.35;
    double top_thickness_m = 0.03;
    double post_width_m = 0.10;
    std::optional<double> max_load_kg;
    std::optional<double> receiver_height_m;
    std::optional<double> base_z_m;
};

/// A wall or fence along a line of points, the middle of its thickness. Foot and top follow the
/// ground; with an absolute level both are level.
struct Wall {
    Label label;
    std::vector<Vec2> line;  ///< at least two points; closed when the last equals the first
    double height_m = 0.0;
    double thickness_m = 0.0;
    double porosity = 0.0;  ///< 0 solid wall; a fence lets this fraction of direct sun through
    double albedo = 0.25;
    std::optional<double> base_z_m;
};

enum class RoofForm { flat, gable, shed };

struct Building {
    Label label;
    std::vector<Vec2> outline;  ///< counter-clockwise
    double eaves_height_m = 0.0;
    RoofForm roof = RoofForm::flat;
    double ridge_height_m = 0.0;  ///< gable and shed: highest line above the anchor ground
    Angle ridge_bearing;          ///< gable: along the ridge; shed: along the high edge, from
                                  ///< which the roof falls to the left
    double eaves_overhang_m = 0.0;
    double albedo = 0.25;
    std::optional<double> base_z_m;
};

/// A hanging flap along one edge of a cloth.
struct Flap {
    int edge = 0;  ///< from 0: the edge from corner `edge` to the next
    double drop_m = 0.0;
};

struct ClothCorner {
    Vec2 position;
    Height height;
};

struct Cloth {
    Label label;
    std::vector<ClothCorner> corners;  ///< three or four
    double sag_fraction = 0.0;         ///< sag at the middle over the longest edge
    double shade_factor = 0.0;         ///< fraction of light stopped at right angles
    std::vector<YearSpan> up;          ///< when it hangs; empty: all year
    std::vector<Flap> flaps;
};

/// A panel of parallel laths. `corner` is one corner; the laths run along `bearing`; the panel
/// extends `length_m` along them and `width_m` to the left of that direction.
struct LathPanel {
    Label label;
    Vec2 corner;
    Height height;  ///< of the middle of the laths at the corner's edge
    Angle bearing;
    double length_m = 0.0;
    double width_m = 0.0;
    Angle tilt;  ///< of the panel about the first lath: positive raises the far side
    double slat_width_m = 0.0;
    double gap_m = 0.0;
    double thickness_m = 0.0;
    Angle slat_tilt;  ///< of each lath about its own length
    std::vector<YearSpan> up;
};

enum class CrownForm { ellipsoid, cone, dome, column };
enum class LeafHabit { deciduous, semi_evergreen, evergreen };

/// A tree in the ground that throws shade.
struct Tree {
    Label label;
    Vec2 position;
    double height_m = 0.0;
    double crown_base_m = 0.0;
    double crown_width_m = 0.0;         ///< along `crown_bearing`
    double crown_width_across_m = 0.0;  ///< square to it
    Angle crown_bearing;
    CrownForm crown_form = CrownForm::ellipsoid;
    LeafHabit leaf_habit = LeafHabit::deciduous;
    std::optional<MonthDay> leaf_out;  ///< middle of the 21 days of change
    std::optional<MonthDay> leaf_fall;
    double transmission_in_leaf = 0.10;  ///< direct light through one crown diameter
    double transmission_bare = 0.50;     ///< both from memory: Konarska et al. 2014 and others
    double trunk_diameter_m = 0.0;
    std::optional<double> base_z_m;
};

/// An imported mesh: OBJ, PLY, STL or OFF beside the scene; opaque.
struct Mesh {
    Label label;
    std::string file;  ///< relative to the scene, as written
    Vec2 position;
    double z_m = 0.0;  ///< above the ground at `position`
    Angle bearing;     ///< the mesh's y axis points there
    double scale = 1.0;
};

enum class PotColour { pale, medium, dark };
enum class ScorchRisk { low, medium, high };

/// What a tree in a pot wants; from its species, or the owner's own.
struct Wants {
    double sun_min_h = 4.0;          ///< fewest hours of direct sun a day that keep it compact
    double sun_max_h = 8.0;          ///< most on a hot clear day in a small pot
    double drought_tolerance = 2.5;  ///< 0 none to 5 most
    double shade_tolerance = 2.5;    ///< 0 none to 5 most
    ScorchRisk scorch_risk = ScorchRisk::medium;
    double shelter_below_c = -5.0;
    bool operator==(const Wants&) const = default;
};

/// The wants that the owner stated; what is left out comes from the species.
struct OwnWants {
    std::optional<double> sun_min_h;
    std::optional<double> sun_max_h;
    std::optional<double> drought_tolerance;  ///< 0 none to 5 most
    std::optional<double> shade_tolerance;    ///< 0 none to 5 most
    std::optional<ScorchRisk> scorch_risk;
    std::optional<double> shelter_below_c;
    bool operator==(const OwnWants&) const = default;
};

/// A passing state that changes a pot's wants until a date.
enum class PassingState { repotted, defoliated, wired, sick };

struct StateUntil {
    PassingState state = PassingState::repotted;
    Date until;
};

struct Pot {
    Label label;          ///< id is the label's code
    std::string species;  ///< name in the species table, or empty
    std::string spot;     ///< id of the spot where it stands now; empty: nowhere
    double pot_length_m = 0.0;
    double pot_width_m = 0.0;
    double pot_height_m = 0.0;
    double crown_width_m = 0.0;
    double crown_height_m = 0.0;
    double soil_l = 0.0;
    PotColour colour = PotColour::medium;
    std::string substrate;
    OwnWants own_wants;
    Wants wants;                  ///< complete_pots fills it: the species', with own_wants on top
    bool has_known_wants = true;  ///< false: neither species nor own wants were given
    double weight_kg = 0.0;
    bool pinned = false;
    std::vector<std::string> not_on;  ///< ids of benches and spots where it must not stand
    std::optional<double> receiver_height_m;
    std::optional<StateUntil> state;
    int count = 1;  ///< a batch of this many alike (each takes a spot)
};

struct Season {
    std::string name;  ///< "midsummer"
    MonthDay first;
};

struct WateringRound {
    int seconds_of_day = 0;
};

/// What may be carried.
struct Lifting {
    int people = 1;
    double limit_kg =
        15.0;  ///< most that one person lifts; the plan never asks for more than people x limit
    std::optional<int> lifts;  ///< most pots to move, when limited
};

struct Scene {
    std::string file;  ///< as the user named it; empty when made in memory
    int version = 1;
    Site site;
    Ground ground;
    std::vector<Bench> benches;
    std::vector<PostStand> post_stands;
    std::vector<Wall> walls;  ///< walls, then fences, in file order
    std::vector<Building> buildings;
    std::vector<Cloth> cloths;
    std::vector<LathPanel> lath_panels;
    std::vector<Tree> trees;
    std::vector<Mesh> meshes;
    std::vector<Pot> pots;
    std::vector<Season> seasons;  ///< by first day; the hemisphere's own when the file has none
    std::map<std::string, double> harm_weights;  ///< the user's own, by name; see placement
    std::vector<WateringRound> watering_rounds;
    Lifting lifting;
};

/// The year a computation uses: `asked`, else the scene's, else default_year.
inline constexpr int default_year = 2026;
[[nodiscard]] int year_for(const Scene& scene, std::optional<int> asked);

}  // namespace sunfleck::scene
