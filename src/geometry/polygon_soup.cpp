#include "geometry/polygon_soup.h"

#include <CGAL/IO/OBJ.h>
#include <CGAL/IO/OFF.h>
#include <CGAL/IO/PLY.h>
#include <CGAL/IO/STL.h>
#include <CGAL/Simple_cartesian.h>

#include <cctype>
#include <charconv>
#include <cstdint>
#include <exception>
#include <sstream>
#include <stdexcept>
#include <string_view>
#include <utility>

namespace sunfleck::geometry {
namespace {

using Point = CGAL::Simple_cartesian<double>::Point_3;

/// A file claims more than is taken.
class TooLarge : public std::length_error {
  public:
    TooLarge() : std::length_error("mesh too large") {}
};

/// A vector that refuses to grow past a limit. The readers resize to whatever number the file
/// names, so that a few wrong bytes could ask for all memory.
template <typename T>
class LimitedVector {
  public:
    using value_type = T;
    using reference = T&;
    using const_reference = const T&;
    using size_type = std::size_t;
    using difference_type = std::ptrdiff_t;
    using iterator = typename std::vector<T>::iterator;
    using const_iterator = typename std::vector<T>::const_iterator;

    explicit LimitedVector(std::size_t most = 1000) : most_(most) {}
    [[nodiscard]] std::size_t size() const { return items_.size(); }
    [[nodiscard]] bool empty() const { return items_.empty(); }
    [[nodiscard]] T& operator[](std::size_t i) { return items_[i]; }
    [[nodiscard]] const T& operator[](std::size_t i) const { return items_[i]; }
    [[nodiscard]] T& back() { return items_.back(); }
    [[nodiscard]] iterator begin() { return items_.begin(); }
    [[nodiscard]] iterator end() { return items_.end(); }
    [[nodiscard]] const_iterator begin() const { return items_.begin(); }
    [[nodiscard]] const_iterator end() const { return items_.end(); }
    void resize(std::size_t size) {
        need(size);
        items_.resize(size);
    }
    void push_back(T item) {
        need(items_.size() + 1);
        items_.push_back(std::move(item));
    }
    void emplace_back() { push_back(T()); }

  private:
    void need(std::size_t size) const {
        if (size > most_) throw TooLarge();
    }
    std::vector<T> items_;
    std::size_t most_;
};

using Face = LimitedVector<std::size_t>;

/// The words of a line.
std::vector<std::string_view> words_of(std::string_view line) {
    std::vector<std::string_view> words;
    std::size_t at = 0;
    const auto is_space = [](char c) { return std::isspace(static_cast<unsigned char>(c)) != 0; };
    while (at < line.size()) {
        while (at < line.size() && is_space(line[at])) ++at;
        const std::size_t from = at;
        while (at < line.size() && !is_space(line[at])) ++at;
        if (at > from) words.push_back(line.substr(from, at - from));
    }
    return words;
}

bool is_wide(std::string_view type) {
    return type == "int" || type == "uint" || type == "int32" || type == "uint32" ||
           type == "float" || type == "double" || type == "float32" || type == "float64";
}

/// Makes a PLY file's header safe to believe: no element with more items than the file has bytes,
/// and no list whose length could be 2^32. In text files a long length type is only a word, and is
/// shortened. Nothing when the file may be read.
std::optional<SoupFault> tame_ply_header(std::string& bytes) {
    bool is_text = false;
    std::size_t at = 0;
    while (at < bytes.size()) {
        const std::size_t end = std::min(bytes.find('\n', at), bytes.size());
        const auto words = words_of(std::string_view(bytes).substr(at, end - at));
        if (!words.empty() && words[0] == "end_header") return std::nullopt;
        if (words.size() >= 2 && words[0] == "format") is_text = words[1] == "ascii";
        if (words.size() >= 3 && words[0] == "element") {
            std::size_t count = 0;
            const auto [stop, error] = std::from_chars(words[2].begin(), words[2].end(), count);
            if (error != std::errc{} || stop != words[2].end() || count > bytes.size()) {
                return SoupFault::broken;
            }
        }
        std::size_t next = end + 1;
        if (words.size() >= 4 && words[0] == "property" && words[1] == "list" &&
            is_wide(words[2])) {
            if (!is_text) return SoupFault::wide_lists;
            const auto from = static_cast<std::size_t>(words[2].data() - bytes.data());
            const std::size_t old_size = words[2].size();
            bytes.replace(from, old_size, "ushort");
            next = next + 6 - old_size;
        }
        at = next;
    }
    return SoupFault::broken;
}

bool read(std::istream& stream, MeshFormat format, LimitedVector<Point>& points,
          LimitedVector<Face>& faces) {
    switch (format) {
        case MeshFormat::obj:
            return CGAL::IO::read_OBJ(stream, points, faces);
        case MeshFormat::ply:
            return CGAL::IO::read_PLY(stream, points, faces);
        case MeshFormat::stl:
            return CGAL::IO::read_STL(stream, points, faces);
        case MeshFormat::off:
            return CGAL::IO::read_OFF(stream, points, faces);
    }
    return false;
}

}  // namespace

SoupResult read_polygon_soup(std::string bytes, MeshFormat format, std::size_t most_faces) {
    if (format == MeshFormat::ply) {
        if (const auto fault = tame_ply_header(bytes)) return {std::nullopt, *fault};
    }
    LimitedVector<Point> points(3 * most_faces);
    LimitedVector<Face> faces(most_faces);
    try {
        std::istringstream stream(std::move(bytes), std::ios::in | std::ios::binary);
        if (!read(stream, format, points, faces)) return {std::nullopt, SoupFault::broken};
    } catch (const TooLarge&) {
        return {std::nullopt, SoupFault::too_large};
    } catch (const std::exception&) {
        // The readers' own checks, or a length below zero taken as huge.
        return {std::nullopt, SoupFault::broken};
    }
    PolygonSoup soup;
    soup.corners.reserve(points.size());
    for (const Point& p : points) soup.corners.push_back({p.x(), p.y(), p.z()});
    soup.faces.reserve(faces.size());
    for (const Face& face : faces) soup.faces.emplace_back(face.begin(), face.end());
    return {std::move(soup), SoupFault::broken};
}

}  // namespace sunfleck::geometry
