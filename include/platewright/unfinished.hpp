// Files that are being written and not yet in place.
#pragma once

namespace platewright {

// Removes the drafts of all files that this process is writing. Safe in a signal
// handler (it calls unlink alone); nothing can be written afterwards.
void remove_drafts() noexcept;

}  // namespace platewright
