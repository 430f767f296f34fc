#include "window/change_keeper.h"

#include <filesystem>

namespace sunfleck::window {
namespace {

constexpr double patience_s = 2.0;

bool is_same_file(const std::filesystem::path& a, const std::filesystem::path& b) {
    std::error_code error;
    const bool is_same = std::filesystem::equivalent(a, b, error);
    return !error && is_same;
}

}  // namespace

ChangeKeeper::ChangeKeeper(const WindowOptions& options) : options_(&options) {
    const bool is_able = !options.recovery_folder.empty() && !options.session.empty();
    if (is_able && options.now) folder_.emplace(options.recovery_folder);
}

void ChangeKeeper::offer_found(ViewModel& view) {
    if (!folder_) return;
    for (auto& record : folder_->found(options_->is_session_running)) {
        if (!is_same_file(record.garden, view.document().path())) continue;
        found_session_ = record.session;
        view.offer_found_changes(std::move(record.text));
        return;
    }
}

void ChangeKeeper::save(const ViewModel& view, bool is_last) {
    if (!folder_) return;
    if (!found_session_.empty() && !view.has_found_changes()) {
        folder_->forget(found_session_);
        found_session_.clear();
    }
    const document::Document& document = view.document();
    const bool is_kept = document.is_kept();
    if (is_kept && was_kept_) return;
    if (saved_revision_ == document.revision() && is_kept == was_kept_) return;
    const UtcSeconds now = options_->now();
    const bool is_soon = saved_revision_ && now.seconds_after(saved_at_) < patience_s;
    if (is_soon && !is_last && !is_kept) return;
    // A record that cannot be written must not stop the work; keeping says why it fails.
    if (!folder_->save(document, options_->session, now)) return;
    saved_revision_ = document.revision();
    saved_at_ = now;
    was_kept_ = is_kept;
}

}  // namespace sunfleck::window
