#include "geometry/polygon_soup.h"

#include <CGAL/IO/OBJ.h>
#include <CGAL/IO/OFF.h>
#include <CGAL/IO/PLY.h>
#include <CGAL/IO/STL.h>
#include <CGAL/Simple_cartesian.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cstdint>
#include <exception>
#include <initializer_list>
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

bool is_any_of(std::string_view word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}
bool is_short_length(std::string_view type) {
    return is_any_of(type,
                     {"char", "uchar", "int8", "uint8", "short", "ushort", "int16", "uint16"});
}
bool is_long_integer(std::string_view type) {
    return is_any_of(type, {"int", "uint", "int32", "uint32"});
}
bool is_fraction(std::string_view type) {
    return is_any_of(type, {"float", "double", "float32", "float64"});
}
bool is_number(std::string_view type) {
    return is_short_length(type) || is_long_integer(type) || is_fraction(type);
}

/// Reads a PLY header line by line, and makes sure that the reader after it can rely on what it
/// takes for granted: properties belong to an element, corners have fractions x, y, z, faces a
/// list of long integers, no element has more items than the file has bytes, and no list's length
/// could be 2^32. In text files a long length type is only a word, and is shortened.
class PlyHeader {
  public:
    explicit PlyHeader(std::string& bytes) : bytes_(bytes) {}

    /// What is wrong with it; nothing when the file may be read.
    [[nodiscard]] std::optional<SoupFault> tame() {
        for (std::size_t at = 0; at < bytes_.size();) {
            const std::size_t end = std::min(bytes_.find('\n', at), bytes_.size());
            const auto words = words_of(std::string_view(bytes_).substr(at, end - at));
            if (words.empty()) return SoupFault::broken;
            if (words[0] == "end_header") return missing();
            const std::size_t old_size = bytes_.size();
            if (const auto fault = take(words)) return fault;
            at = end + 1 + bytes_.size() - old_size;
        }
        return SoupFault::broken;
    }

  private:
    using Words = std::vector<std::string_view>;

    std::optional<SoupFault> take(const Words& words) {
        if (words[0] == "format" && words.size() >= 2) {
            is_text_ = words[1] == "ascii";
        } else if (words[0] == "element") {
            return take_element(words);
        } else if (words[0] == "property") {
            return words.size() >= 2 && words[1] == "list" ? take_list(words) : take_number(words);
        }
        return std::nullopt;
    }

    std::optional<SoupFault> take_element(const Words& words) {
        if (words.size() < 3) return SoupFault::broken;
        std::size_t count = 0;
        const auto [stop, error] = std::from_chars(words[2].begin(), words[2].end(), count);
        if (error != std::errc{} || stop != words[2].end() || count > bytes_.size()) {
            return SoupFault::broken;
        }
        element_ = words[1];
        return std::nullopt;
    }

    std::optional<SoupFault> take_number(const Words& words) {
        if (words.size() < 3 || element_.empty() || !is_number(words[1])) return SoupFault::broken;
        const bool is_place = is_any_of(words[2], {"x", "y", "z"});
        if (is_of_corners() && is_place) {
            if (!is_fraction(words[1])) return SoupFault::broken;
            ++places_;
        }
        return std::nullopt;
    }

    std::optional<SoupFault> take_list(const Words& words) {
        if (words.size() < 5 || element_.empty()) return SoupFault::broken;
        if (!is_number(words[2]) || is_fraction(words[2]) || !is_number(words[3])) {
            return SoupFault::broken;
        }
        if (is_of_faces() && is_any_of(words[4], {"vertex_indices", "vertex_index"})) {
            if (!is_long_integer(words[3])) return SoupFault::broken;
            has_faces_ = true;
        }
        if (is_short_length(words[2])) return std::nullopt;
        if (!is_text_) return SoupFault::wide_lists;
        const auto from = static_cast<std::size_t>(words[2].data() - bytes_.data());
        bytes_.replace(from, words[2].size(), "ushort");
        return std::nullopt;
    }

    [[nodiscard]] std::optional<SoupFault> missing() const {
        return places_ == 3 && has_faces_ ? std::nullopt : std::optional(SoupFault::broken);
    }
    [[nodiscard]] bool is_of_corners() const { return is_any_of(element_, {"vertex", "vertices"}); }
    [[nodiscard]] bool is_of_faces() const { return is_any_of(element_, {"face", "faces"}); }

    std::string& bytes_;
    std::string element_;
    bool is_text_ = false;
    bool has_faces_ = false;
    int places_ = 0;
};

bool read(std::istream& stream, MeshFormat format, LimitedVector<Point>& points,
          LimitedVector<Face>& faces) {
    const auto quiet = CGAL::parameters::verbose(false);
    switch (format) {
        case MeshFormat::obj:
            return CGAL::IO::read_OBJ(stream, points, faces, quiet);
        case MeshFormat::ply:
            return CGAL::IO::read_PLY(stream, points, faces, quiet);
        case MeshFormat::stl:
            return CGAL::IO::read_STL(stream, points, faces, quiet);
        case MeshFormat::off:
            return CGAL::IO::read_OFF(stream, points, faces, quiet);
    }
    return false;
}

}  // namespace

SoupResult read_polygon_soup(std::string bytes, MeshFormat format, std::size_t most_faces) {
    if (format == MeshFormat::ply) {
        if (const auto fault = PlyHeader(bytes).tame()) return {std::nullopt, *fault};
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
