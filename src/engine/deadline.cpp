#include "engine/deadline.hpp"

#include <atomic>

#include "platewright/engine.hpp"

namespace platewright {
namespace {

std::atomic<bool> unfinished{false};

}  // namespace

void note_unfinished_work() { unfinished = true; }

bool unfinished_work() { return unfinished; }

}  // namespace platewright
