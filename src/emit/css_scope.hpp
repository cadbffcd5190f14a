// A figure's styles made to hold inside one element of a page only.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace platewright::emit::css {

// Where the figure comes to stand and what its root was.
struct Scope {
  std::string id;       // of the nested svg: "pwf1"
  std::string root_id;  // the figure's own root id, may be empty
  std::vector<std::string> root_classes;
  std::string id_of(std::string_view name) const;     // "pwf1-NAME"; the root's is `id`
  std::string class_of(std::string_view name) const;  // classes named pw-... are the page's own
};

// A style sheet whose every rule holds inside #id only. Imports, page rules and
// whatever would be fetched are dropped; references to ids are renamed.
std::string scoped_sheet(std::string_view text, const Scope& scope);

// The content of a style attribute; `root`: of the figure's root, whose place
// and size are the page's business.
std::string scoped_declarations(std::string_view text, const Scope& scope, bool root);

// The value of a presentation attribute; nothing when it refers outside.
std::optional<std::string> scoped_value(std::string_view text, const Scope& scope);

}  // namespace platewright::emit::css
