#pragma once

#include "window/plan_answers.h"
#include "window/sun_answers.h"
#include "window/view_model.h"

#include <memory>

namespace sunfleck::window {

/// Computes in the background what a view wants, on a copy of its garden. The newest question
/// replaces older ones; an answer that is being worked on runs out and is still told.
class AnswerDesk {
  public:
    AnswerDesk();
    /// Waits for what is being worked on.
    ~AnswerDesk();
    AnswerDesk(const AnswerDesk&) = delete;
    AnswerDesk& operator=(const AnswerDesk&) = delete;

    /// Asks for what the view lacks, and hands it what has been answered since.
    void serve(ViewModel& view);
    /// True while a question is open.
    [[nodiscard]] bool is_busy() const;

  private:
    struct Room;
    std::unique_ptr<Room> room_;
};

}  // namespace sunfleck::window
