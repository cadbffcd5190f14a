// One selector of a figure's style sheet made to match inside the nested svg only.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "emit/css.hpp"
#include "emit/css_scope.hpp"

namespace platewright::emit::css {

struct ScopedSelector {
  std::vector<std::string> inside;  // match elements below the nested svg
  std::string root;                 // matches the nested svg itself; may be empty
};

// Nothing for what is no sound selector, which spoils its rule.
std::optional<ScopedSelector> scoped_selector(Tokens selector, const Scope& scope);

}  // namespace platewright::emit::css
