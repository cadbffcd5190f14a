// Drafts of output files: which ones this process has, and what others left
// behind when they were killed.
#pragma once

#include <string>

namespace platewright {

// A draft is named as its file, this, and six letters.
inline constexpr const char* draft_mark = ".platewright-";

// For `remove_drafts`; threads may call both at once.
void note_draft(const std::string& name);
void forget_draft(const std::string& name);

// Removes drafts in a folder that nobody writes any more: they are not locked and
// have not changed for a minute.
void remove_stale_drafts(const std::string& folder);

}  // namespace platewright
