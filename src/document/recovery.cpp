#include "sunfleck/document/recovery.h"

#include "sunfleck/base/json_text.h"
#include "sunfleck/base/json_tree.h"
#include "sunfleck/base/require.h"
#include "sunfleck/base/text_file.h"

#include <algorithm>
#include <cctype>
#include <optional>
#include <system_error>
#include <utility>

namespace sunfleck::document {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view record_format = "sunfleck-recovery";

std::string record_text(const Document& document, UtcSeconds now) {
    return "{\"format\": " + json_quoted(record_format) + ", \"version\": 1" +
           ", \"garden\": " + json_quoted(document.path().string()) +
           ", \"saved_s\": " + json_number(now.since_1970()) +
           ", \"text\": " + json_quoted(document.text()) + "}\n";
}

const JsonNode* member_of_kind(const JsonTree& tree, std::string_view key, JsonKind kind) {
    const JsonNode* node = tree.root().find(key);
    return node != nullptr && node->kind == kind ? node : nullptr;
}

std::optional<Recovered> read_record(const fs::path& path) {
    auto text = read_text_file(path);
    if (!text) return std::nullopt;
    const JsonReading reading = read_json(std::move(*text), path.string());
    if (!reading.tree || !reading.problems.empty()) return std::nullopt;
    const JsonNode* format = member_of_kind(*reading.tree, "format", JsonKind::text);
    const JsonNode* garden = member_of_kind(*reading.tree, "garden", JsonKind::text);
    const JsonNode* saved = member_of_kind(*reading.tree, "saved_s", JsonKind::number);
    const JsonNode* scene = member_of_kind(*reading.tree, "text", JsonKind::text);
    if (format == nullptr || format->text != record_format) return std::nullopt;
    if (garden == nullptr || saved == nullptr || scene == nullptr) return std::nullopt;
    return Recovered{.session = path.stem().string(),
                     .garden = garden->text,
                     .saved = UtcSeconds::since_1970(saved->number),
                     .text = scene->text};
}

bool is_already_kept(const Recovered& record) {
    if (record.garden.empty()) return false;
    const auto there = read_text_file(record.garden);
    return there && *there == record.text;
}

}  // namespace

fs::path RecoveryFolder::record_of(std::string_view session) const {
    const bool is_plain = !session.empty() && std::ranges::all_of(session, [](char c) {
        return c == '-' || std::isalnum(static_cast<unsigned char>(c)) != 0;
    });
    SUNFLECK_REQUIRE(is_plain, "a session is named by letters, digits and '-'");
    return folder_ / (std::string(session) + ".json");
}

Result<void> RecoveryFolder::save(const Document& document, std::string_view session,
                                  UtcSeconds now) const {
    if (document.is_kept()) {
        forget(session);
        return {};
    }
    std::error_code error;
    if (fs::create_directories(folder_, error)) {
        fs::permissions(folder_, fs::perms::owner_all, error);
    }
    return save_text_file(record_of(session), record_text(document, now));
}

void RecoveryFolder::forget(std::string_view session) const {
    std::error_code ignored;
    fs::remove(record_of(session), ignored);
}

std::vector<Recovered> RecoveryFolder::found(
    const std::function<bool(const std::string& session)>& is_running) const {
    std::vector<Recovered> records;
    std::error_code error;
    for (auto entry = fs::directory_iterator(folder_, error);
         !error && entry != fs::directory_iterator(); entry.increment(error)) {
        const fs::path path = entry->path();
        if (path.extension() != ".json" || path.filename().string().starts_with(".")) continue;
        auto record = read_record(path);
        if (!record || is_already_kept(*record)) continue;
        if (is_running && is_running(record->session)) continue;
        records.push_back(std::move(*record));
    }
    std::ranges::sort(records, [](const Recovered& a, const Recovered& b) {
        return a.saved != b.saved ? a.saved > b.saved : a.session < b.session;
    });
    return records;
}

}  // namespace sunfleck::document
