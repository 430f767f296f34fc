#include "sunfleck/document/document.h"

#include "sunfleck/base/require.h"
#include "sunfleck/base/text_file.h"

#include <algorithm>
#include <utility>

namespace sunfleck::document {
namespace {

tl::unexpected<Problems> cannot_keep(const std::filesystem::path& path, std::string code,
                                     std::string message, std::string mend) {
    return failure({.kind = ProblemKind::file,
                    .code = std::move(code),
                    .file = path.string(),
                    .message = std::move(message),
                    .mend = std::move(mend)});
}

}  // namespace

Document::Document(std::string text, scene::SceneFile file, std::filesystem::path path)
    : text_(std::move(text)), file_(std::move(file)), path_(std::move(path)) {}

Result<Document> Document::open(const std::filesystem::path& path) {
    auto text = read_text_file(path);
    if (!text) return tl::unexpected(text.error());
    auto document = from_text(std::move(*text), path);
    if (document) document->kept_text_ = document->text_;
    return document;
}

Result<Document> Document::from_text(std::string text, const std::filesystem::path& path) {
    auto file = scene::SceneFile::parse(text, path.string());
    if (!file) return tl::unexpected(file.error());
    return Document(std::move(text), std::move(*file), path);
}

Result<void> Document::apply(const Command& command) {
    auto text = with_steps(text_, command.steps);
    if (!text) return tl::unexpected(text.error());
    return change_to(std::move(*text), command.name, command.strand);
}

Result<void> Document::take_text(std::string text, const std::string& name) {
    return change_to(std::move(text), name, {});
}

Result<void> Document::change_to(std::string text, const std::string& name,
                                 const std::string& strand) {
    if (text == text_) return {};
    auto file = scene::SceneFile::parse(text, path_.string());
    if (!file) return tl::unexpected(file.error());
    const std::string before = text_;
    take(std::move(text), std::move(*file));
    remember(name, strand, before);
    return {};
}

// What differs, less what both texts begin and end with.
Document::Change Document::change_between(const std::string& before, const std::string& after) {
    const std::size_t shorter = std::min(before.size(), after.size());
    const auto first = static_cast<std::size_t>(
        std::mismatch(before.begin(), before.begin() + static_cast<std::ptrdiff_t>(shorter),
                      after.begin())
            .first -
        before.begin());
    std::size_t tail = 0;
    while (tail < shorter - first &&
           before[before.size() - 1 - tail] == after[after.size() - 1 - tail]) {
        ++tail;
    }
    Change change;
    change.at = first;
    change.before = before.substr(first, before.size() - tail - first);
    change.after = after.substr(first, after.size() - tail - first);
    return change;
}

void Document::remember(const std::string& name, const std::string& strand,
                        const std::string& before) {
    const bool continues_strand = is_strand_open_ && done_ == changes_.size() && done_ > 0 &&
                                  !strand.empty() && changes_.back().strand == strand;
    std::string start = before;
    if (continues_strand) {
        const Change& last = changes_.back();
        start.replace(last.at, last.after.size(), last.before);
        --done_;
    }
    changes_.resize(done_);
    Change change = change_between(start, text_);
    change.name = name;
    change.strand = strand;
    changes_.push_back(std::move(change));
    ++done_;
    is_strand_open_ = true;
}

const std::string* Document::undo_name() const {
    return done_ > 0 ? &changes_[done_ - 1].name : nullptr;
}

const std::string* Document::redo_name() const {
    return done_ < changes_.size() ? &changes_[done_].name : nullptr;
}

bool Document::undo() {
    if (done_ == 0) return false;
    const Change& change = changes_[--done_];
    swap_in(change, change.after, change.before);
    return true;
}

bool Document::redo() {
    if (done_ == changes_.size()) return false;
    const Change& change = changes_[done_++];
    swap_in(change, change.before, change.after);
    return true;
}

void Document::swap_in(const Change& change, const std::string& out, const std::string& in) {
    std::string text = text_;
    text.replace(change.at, out.size(), in);
    auto file = scene::SceneFile::parse(text, path_.string());
    SUNFLECK_REQUIRE(file, "a garden that was sound reads again");
    is_strand_open_ = false;
    take(std::move(text), std::move(*file));
}

void Document::take(std::string text, scene::SceneFile file) {
    text_ = std::move(text);
    file_ = std::move(file);
    ++revision_;
}

bool Document::is_kept() const {
    return kept_text_ && *kept_text_ == text_;
}

OnDisk Document::on_disk() const {
    if (path_.empty()) return OnDisk::gone;
    std::error_code ignored;
    if (!std::filesystem::exists(path_, ignored)) return OnDisk::gone;
    const auto there = read_text_file(path_);
    return kept_text_ && there && *there == *kept_text_ ? OnDisk::as_kept
                                                        : OnDisk::changed_elsewhere;
}

Result<void> Document::keep(IfChanged if_changed) {
    if (path_.empty()) {
        return cannot_keep(path_, "no_path", "The garden has no file yet.",
                           "Say where to keep it.");
    }
    if (if_changed == IfChanged::refuse && on_disk() == OnDisk::changed_elsewhere) {
        return cannot_keep(path_, "changed_elsewhere",
                           "This file was changed elsewhere since it was opened.",
                           "Keep yours as a copy, or take theirs.");
    }
    if (auto saved = save_text_file(path_, text_); !saved) return saved;
    kept_text_ = text_;
    return {};
}

Result<void> Document::keep_as(const std::filesystem::path& path) {
    // Meshes lie beside the scene, so it must also be sound from there.
    auto file = scene::SceneFile::parse(text_, path.string());
    if (!file) return tl::unexpected(file.error());
    if (auto saved = save_text_file(path, text_); !saved) return saved;
    path_ = path;
    kept_text_ = text_;
    take(text_, std::move(*file));
    return {};
}

}  // namespace sunfleck::document
