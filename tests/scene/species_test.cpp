#include "sunfleck/scene/species.h"

#include "base/within.h"

#include <catch2/catch.hpp>

using sunfleck::test::within;

namespace sunfleck::scene {

TEST_CASE("The table has its 61 kinds, each with sane figures and sources", "[scene][property]") {
    REQUIRE(species_table().size() == 61);
    for (const Species& species : species_table()) {
        CAPTURE(species.botanical_name);
        const Wants& wants = species.wants;
        CHECK(find_species(species.common_name) == &species);
        CHECK(find_species(species.botanical_name) == &species);
        CHECK((wants.sun_min_h >= 2.0 && wants.sun_min_h < wants.sun_max_h));
        CHECK(wants.sun_max_h <= 16.0);
        CHECK((wants.drought_tolerance >= 0.0 && wants.drought_tolerance <= 5.0));
        CHECK((wants.shade_tolerance >= 0.0 && wants.shade_tolerance <= 5.0));
        CHECK((wants.shelter_below_c >= -25.0 && wants.shelter_below_c <= 15.0));
        CHECK((species.hardiness_zone_low >= 1 &&
               species.hardiness_zone_low <= species.hardiness_zone_high));
        CHECK(species.hardiness_zone_high <= 13);
        for (const std::string* source :
             {&species.hours_source, &species.tolerance_source, &species.scorch_source,
              &species.zone_source, &species.shelter_source}) {
            CHECK_FALSE(source->empty());
        }
        CHECK(species.scorch_source == "common practice, no source");
    }
}

// Niinemets & Valladares 2006, Ecological Monographs 76:521-547, appendix A, as a public forestry
// table repeats it (2 decimals).
TEST_CASE("Tolerances of well-known trees are the published ones", "[scene][published]") {
    struct Row {
        const char* name;
        double drought;
        double shade;
    };
    for (const Row& row :
         {Row{"Picea abies", 1.75, 4.45}, Row{"Picea glauca", 2.88, 4.15},
          Row{"Tsuga canadensis", 1.0, 4.83}, Row{"Thuja occidentalis", 2.71, 3.45},
          Row{"Acer rubrum", 1.84, 3.44}, Row{"Fagus grandifolia", 1.5, 4.75}}) {
        CAPTURE(row.name);
        const Species* species = find_species(row.name);
        REQUIRE(species != nullptr);
        CHECK(species->wants.drought_tolerance == within(row.drought, 0.005));
        CHECK(species->wants.shade_tolerance == within(row.shade, 0.005));
        CHECK(species->tolerance_source.find("Niinemets") != std::string::npos);
    }
}

TEST_CASE("A name that is too broad calls up its kin", "[scene][property]") {
    const std::vector<std::string> maples{"Japanese maple", "Trident maple", "Field maple",
                                          "Red maple"};
    CHECK(kindred_species("maple") == maples);
    CHECK(kindred_species("ACER") == maples);
    CHECK(kindred_species("of a").empty());
    CHECK(kindred_species("tulip").empty());
}

TEST_CASE("Names are found as growers write them", "[scene][property]") {
    struct Row {
        const char* written;
        const char* botanical;
    };
    for (const Row& row :
         {Row{"japanese MAPLE", "Acer palmatum"}, Row{" Acer  palmatum ", "Acer palmatum"},
          Row{"Acer palmatum 'Deshojo'", "Acer palmatum"}, Row{"Malus halliana", "Malus spp."},
          Row{"Malus", "Malus spp."}, Row{"Ligustrum ovalifolium", "Ligustrum spp."},
          Row{"Rhododendron obtusum group", "Rhododendron obtusum group"}}) {
        CAPTURE(row.written);
        const Species* species = find_species(row.written);
        REQUIRE(species != nullptr);
        CHECK(species->botanical_name == row.botanical);
    }
    for (const char* unknown : {"", "Acer", "Acer palmatun", "Pinus nigra", "tomato"}) {
        CAPTURE(unknown);
        CHECK(find_species(unknown) == nullptr);
    }
    CHECK(nearest_species("Acer palmatun") == "Acer palmatum");
    CHECK(nearest_species("japanese mapel") == "Japanese maple");
    CHECK(nearest_species("tomato").empty());
}

}  // namespace sunfleck::scene
