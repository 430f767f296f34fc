#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/base/units.h"
#include "sunfleck/document/document.h"

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace sunfleck::document {

/// A garden that was being worked on when its program stopped.
struct Recovered {
    std::string session;           ///< of the program that worked on it
    std::filesystem::path garden;  ///< where it is kept; empty: never kept
    UtcSeconds saved;
    std::string text;
};

/// A folder with one record for each running session whose garden has changes that are not kept.
class RecoveryFolder {
  public:
    explicit RecoveryFolder(std::filesystem::path folder) : folder_(std::move(folder)) {}

    /// Writes the session's record, whole or not at all, or takes it away when all is kept. Makes
    /// the folder, for its owner only. `session`: letters, digits and '-'.
    [[nodiscard]] Result<void> save(const Document& document, std::string_view session,
                                    UtcSeconds now) const;
    /// Takes the session's record away: its garden was kept, or is not wanted.
    void forget(std::string_view session) const;
    /// Records of sessions that do not run any more, the newest first. What is already in the
    /// garden's own file, and what cannot be read, is left out.
    [[nodiscard]] std::vector<Recovered> found(
        const std::function<bool(const std::string& session)>& is_running = {}) const;

  private:
    [[nodiscard]] std::filesystem::path record_of(std::string_view session) const;

    std::filesystem::path folder_;
};

}  // namespace sunfleck::document
