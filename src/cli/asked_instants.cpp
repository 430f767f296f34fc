#include "cli/asked_instants.h"

#include "sunfleck/base/csv.h"
#include "sunfleck/base/nearest_name.h"
#include "sunfleck/sun/instant_text.h"

#include <algorithm>
#include <istream>
#include <iterator>

namespace sunfleck::cli {
namespace {

constexpr std::size_t most_told = 20;
constexpr const char* stream_name = "standard input";

/// The first problems of many; the rest are counted in one more.
Problems told(Problems problems) {
    if (problems.size() <= most_told) return problems;
    const std::size_t rest = problems.size() - most_told;
    problems.resize(most_told);
    problems.push_back({.kind = problems.front().kind,
                        .code = "more_problems",
                        .file = problems.front().file,
                        .message = "And " + std::to_string(rest) + " more like these.",
                        .mend = "Mend these first."});
    return problems;
}

Problem doubled_warning(const std::string& text, const sun::TimeZone& zone) {
    return {.kind = ProblemKind::usage,
            .severity = Severity::warning,
            .code = "doubled_hour",
            .message = "The clock of " + zone.name() + " shows \"" + text +
                       "\" twice; the first is taken.",
            .mend = "Write the offset for the other, such as +00:00."};
}

Result<AskedInstants> typed_instants(const SunArguments& a, const sun::TimeZone& zone) {
    AskedInstants asked;
    Problems problems;
    for (const std::string& text : a.at) {
        const auto typed =
            sun::parse_instant(text, zone, sun::BareTime::clock_of_zone, a.when.date);
        if (!typed) {
            for (Problem problem : typed.error()) {
                problem.kind = ProblemKind::usage;
                problems.push_back(std::move(problem));
            }
            continue;
        }
        asked.instants.push_back(typed->instant);
        if (typed->is_doubled) asked.warnings.push_back(doubled_warning(text, zone));
    }
    if (!problems.empty()) return tl::unexpected(told(std::move(problems)));
    return asked;
}

Problem at_field(Problem problem, const CsvField& field) {
    problem.file = stream_name;
    problem.line = field.line;
    problem.column = field.column;
    return problem;
}

/// Which field of the header is `utc`, in small letters or capitals.
Result<std::size_t> utc_column(const CsvRow& header) {
    std::vector<std::string> names;
    for (const CsvField& field : header.fields) names.push_back(field.text);
    const auto found = std::find_if(names.begin(), names.end(), [](const std::string& name) {
        return edit_distance(name, "utc") == 0;
    });
    if (found != names.end()) return static_cast<std::size_t>(found - names.begin());
    return failure(at_field({.code = "no_utc_column",
                             .message = "The first line names no column \"utc\".",
                             .mend = "Begin with a line that says utc.",
                             .nearest = nearest_name("utc", names)},
                            header.fields.front()));
}

CsvField field_of(const CsvRow& row, std::size_t column) {
    if (column < row.fields.size()) return row.fields[column];
    return {.text = "", .line = row.fields.back().line, .column = row.fields.back().column};
}

Result<AskedInstants> stream_instants(const sun::TimeZone& zone, std::istream& in) {
    const std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    const auto table = parse_csv(text, stream_name);
    if (!table) return tl::unexpected(table.error());
    if (table->rows.empty()) {
        return failure({.code = "empty_table",
                        .file = stream_name,
                        .message = "Nothing was read.",
                        .mend = "Send a line that says utc, then one instant a line."});
    }
    const auto column = utc_column(table->rows.front());
    if (!column) return tl::unexpected(column.error());
    AskedInstants asked{.instants = {}, .warnings = {}, .is_stream = true};
    Problems problems;
    for (std::size_t i = 1; i < table->rows.size(); ++i) {
        const CsvField field = field_of(table->rows[i], *column);
        const auto typed = sun::parse_instant(field.text, zone, sun::BareTime::utc);
        if (typed) {
            asked.instants.push_back(typed->instant);
        } else {
            for (const Problem& problem : typed.error()) {
                problems.push_back(at_field(problem, field));
            }
        }
    }
    if (!problems.empty()) return tl::unexpected(told(std::move(problems)));
    if (asked.instants.empty()) {
        return failure(at_field({.code = "empty_table",
                                 .message = "The table holds no instant below its first line.",
                                 .mend = "Add one instant a line, such as 2026-06-21T12:00Z."},
                                table->rows.front().fields.front()));
    }
    return asked;
}

}  // namespace

Result<AskedInstants> instants_asked(const SunArguments& arguments, const sun::TimeZone& zone,
                                     std::istream& in) {
    const bool asks_stream =
        std::find(arguments.at.begin(), arguments.at.end(), "-") != arguments.at.end();
    if (!asks_stream) return typed_instants(arguments, zone);
    if (arguments.at.size() > 1) {
        return failure({.kind = ProblemKind::usage,
                        .code = "at_twice",
                        .message = "--at - stands beside another --at.",
                        .mend = "Put all instants into the table, or none."});
    }
    return stream_instants(zone, in);
}

}  // namespace sunfleck::cli
