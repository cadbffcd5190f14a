// The entities of a document's own DTD (`<!ENTITY ns_svg "http://...">`, as
// drawing programs write them) and the references to them and to characters.
//
// Expansion is capped in depth and in total size. External and parameter
// entities are never read (XML 1.0, sections 4.1-4.4; 4.6 for the five
// predefined ones).
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace platewright::read {

enum class EntityFault { unknown, external, markup, bomb, malformed, character };

class Entities {
 public:
  Entities() = default;
  // From the text between `<!DOCTYPE` and its `>`.
  explicit Entities(std::string_view doctype);

  // `text` with every reference replaced. Nothing on a fault, which `fault`
  // and `culprit` then tell.
  std::optional<std::string> expand(std::string_view text);
  EntityFault fault() const { return fault_; }
  const std::string& culprit() const { return culprit_; }

 private:
  bool expand_into(std::string& out, std::string_view text, int depth);
  bool fail(EntityFault fault, std::string_view culprit);

  struct Value {
    std::string text;
    bool external = false;
  };
  std::map<std::string, Value, std::less<>> values_;
  std::size_t expanded_ = 0;  // bytes that entities have grown to, in the whole document
  std::size_t references_ = 0;
  EntityFault fault_ = EntityFault::unknown;
  std::string culprit_;
};

}  // namespace platewright::read
