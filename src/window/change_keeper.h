#pragma once

#include "sunfleck/document/recovery.h"
#include "sunfleck/window/window.h"
#include "window/view_model.h"

#include <cstddef>
#include <optional>
#include <string>

namespace sunfleck::window {

/// Saves changes that are not kept as they are made, and finds those of sessions that ended before
/// theirs were kept. Does nothing without a recovery folder.
class ChangeKeeper {
  public:
    explicit ChangeKeeper(const WindowOptions& options);

    /// Offers the view what was found for its garden.
    void offer_found(ViewModel& view);
    /// Saves when there is something new to save, at most every two seconds unless `is_last`.
    void save(const ViewModel& view, bool is_last = false);

  private:
    const WindowOptions* options_;
    std::optional<document::RecoveryFolder> folder_;
    std::optional<std::size_t> saved_revision_;
    bool was_kept_ = true;
    UtcSeconds saved_at_;
    std::string found_session_;  ///< whose record goes when it has been taken or left
};

}  // namespace sunfleck::window
