#include "read/svg_entities.hpp"

#include <charconv>

#include "base/utf8.hpp"

namespace platewright::read {
namespace {

constexpr int deepest = 8;
constexpr std::size_t largest = 1u << 20;
constexpr std::size_t most_references = 1'000'000;

std::string_view next_word(std::string_view& text) {
  const std::size_t start = text.find_first_not_of(" \t\r\n");
  if (start == std::string_view::npos) return text = {};
  text.remove_prefix(start);
  const std::string_view word = text.substr(0, text.find_first_of(" \t\r\n\"'>"));
  text.remove_prefix(word.size());
  return word;
}

// The quoted literal that comes next, or nothing.
std::optional<std::string_view> next_literal(std::string_view& text) {
  const std::size_t open = text.find_first_not_of(" \t\r\n");
  if (open == std::string_view::npos || (text[open] != '"' && text[open] != '\''))
    return std::nullopt;
  const std::size_t close = text.find(text[open], open + 1);
  if (close == std::string_view::npos) return std::nullopt;
  const std::string_view literal = text.substr(open + 1, close - open - 1);
  text.remove_prefix(close + 1);
  return literal;
}

// Code point of "#65" or "#x41"; nothing for what XML forbids.
std::optional<char32_t> character(std::string_view reference) {
  reference.remove_prefix(1);
  const bool hex = reference.starts_with('x');
  if (hex) reference.remove_prefix(1);
  unsigned long code = 0;
  const auto [end, bad] =
      std::from_chars(reference.data(), reference.data() + reference.size(), code, hex ? 16 : 10);
  if (bad != std::errc{} || end != reference.data() + reference.size()) return std::nullopt;
  const bool allowed = code == 0x9 || code == 0xa || code == 0xd ||
                       (code >= 0x20 && code < 0xd800) || (code >= 0xe000 && code < 0xfffe) ||
                       (code >= 0x10000 && code <= 0x10ffff);
  if (!allowed) return std::nullopt;
  return static_cast<char32_t>(code);
}

std::string_view predefined(std::string_view name) {
  if (name == "amp") return "&";
  if (name == "lt") return "<";
  if (name == "gt") return ">";
  if (name == "quot") return "\"";
  if (name == "apos") return "'";
  return {};
}

}  // namespace

Entities::Entities(std::string_view doctype) {
  const std::size_t subset = doctype.find('[');
  if (subset == std::string_view::npos) return;
  std::string_view rest = doctype.substr(subset + 1);
  while (true) {
    const std::size_t at = rest.find('<');
    if (at == std::string_view::npos) return;
    rest.remove_prefix(at);
    if (rest.starts_with("<!--")) {
      const std::size_t end = rest.find("-->");
      if (end == std::string_view::npos) return;
      rest.remove_prefix(end + 3);
      continue;
    }
    if (!rest.starts_with("<!ENTITY")) {
      rest.remove_prefix(1);
      continue;
    }
    rest.remove_prefix(8);
    const std::string name(next_word(rest));
    if (name == "%" || name.empty()) continue;  // a parameter entity is never used
    Value value;
    if (const auto literal = next_literal(rest)) {
      value.text = std::string(*literal);
    } else {
      value.external = true;
    }
    values_.emplace(name, std::move(value));  // the first declaration binds (XML 1.0, 4.2)
  }
}

bool Entities::fail(EntityFault fault, std::string_view culprit) {
  fault_ = fault;
  culprit_ = std::string(culprit);
  return false;
}

bool Entities::expand_into(std::string& out, std::string_view text, int depth) {
  while (true) {
    const std::size_t at = text.find('&');
    out.append(text.substr(0, at));
    if (at == std::string_view::npos) return true;
    text.remove_prefix(at + 1);
    const std::size_t end = text.substr(0, 256).find(';');
    if (end == std::string_view::npos || end == 0)
      return fail(EntityFault::malformed, text.substr(0, text.find_first_of(" <\"'\n")));
    const std::string_view name = text.substr(0, end);
    text.remove_prefix(end + 1);
    if (name.starts_with('#')) {
      const auto code = character(name);
      if (!code) return fail(EntityFault::character, name);
      append_utf8(out, *code);
      continue;
    }
    if (const std::string_view sign = predefined(name); !sign.empty()) {
      out.append(sign);
      continue;
    }
    if (name.find_first_of(" \t\r\n<\"'&=") != std::string_view::npos)
      return fail(EntityFault::malformed, name.substr(0, name.find_first_of(" \t\r\n<\"'&=")));
    const auto found = values_.find(name);
    if (found == values_.end()) return fail(EntityFault::unknown, name);
    const Value& value = found->second;
    if (value.external) return fail(EntityFault::external, name);
    // Elements inside an entity would need parsing anew, at places that no finding could name.
    if (value.text.find('<') != std::string::npos) return fail(EntityFault::markup, name);
    expanded_ += value.text.size();
    if (depth >= deepest || expanded_ > largest || ++references_ > most_references)
      return fail(EntityFault::bomb, name);
    if (!expand_into(out, value.text, depth + 1)) return false;
  }
}

std::optional<std::string> Entities::expand(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  if (!expand_into(out, text, 0)) return std::nullopt;
  return out;
}

}  // namespace platewright::read
