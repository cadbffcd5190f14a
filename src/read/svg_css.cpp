#include "read/svg_css.hpp"

#include <algorithm>
#include <array>
#include <charconv>

#include "base/quote.hpp"
#include "base/utf8.hpp"

namespace platewright::read {
namespace {

constexpr bool is_space(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f';
}

constexpr bool is_hex(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
}

constexpr bool is_name(char32_t c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
         c == '_' || c >= 0xa0;
}

// Past the string that opens at `at`; a string without end ends with the text.
std::size_t after_string(std::string_view css, std::size_t at) {
  const char quote = css[at];
  for (std::size_t i = at + 1; i < css.size(); ++i) {
    if (css[i] == '\\') {
      ++i;
    } else if (css[i] == quote || css[i] == '\n') {
      return i + 1;
    }
  }
  return css.size();
}

// Without comments and without escapes of name characters, `<` and line noise.
std::string plain(std::string_view css) {
  std::string out;
  out.reserve(css.size());
  for (std::size_t i = 0; i < css.size();) {
    const char c = css[i];
    if (c == '/' && css.substr(i).starts_with("/*")) {
      const std::size_t end = css.find("*/", i + 2);
      if (end == std::string_view::npos) break;
      i = end + 2;
      out += ' ';
    } else if (css.substr(i).starts_with("<!--")) {
      i += 4;
    } else if (css.substr(i).starts_with("-->")) {
      i += 3;
    } else if (c == '"' || c == '\'') {
      const std::size_t end = after_string(css, i);
      for (; i < end; ++i)
        if (css[i] != '<') out += css[i];
    } else if (c == '\\' && i + 1 < css.size() && is_hex(css[i + 1])) {
      std::size_t end = i + 1;
      while (end < css.size() && end < i + 7 && is_hex(css[end])) ++end;
      unsigned code = 0;
      std::from_chars(css.data() + i + 1, css.data() + end, code, 16);
      if (is_name(code) && code <= 0x10ffff && !(code >= 0xd800 && code < 0xe000)) {
        append_utf8(out, code);
      } else {
        out.append(css.substr(i, end - i)).append(" ");
      }
      if (end < css.size() && is_space(css[end])) ++end;
      i = end;
    } else if (c == '\\' && i + 1 < css.size()) {
      if (!is_name(static_cast<unsigned char>(css[i + 1]))) out += '\\';
      out += css[i + 1];
      i += 2;
    } else {
      if (c != '<' && c != '\\') out += c;
      ++i;
    }
  }
  return out;
}

// Past the string or the escaped character at `at`; `at` where there is neither.
std::size_t after_quoted(std::string_view css, std::size_t at) {
  if (css[at] == '"' || css[at] == '\'') return after_string(css, at);
  return css[at] == '\\' ? at + 2 : at;
}

// Offset of the first of `stops` outside strings and brackets, or the end.
std::size_t find_outside(std::string_view css, std::size_t from, std::string_view stops) {
  int depth = 0;
  for (std::size_t i = from; i < css.size();) {
    const char c = css[i];
    if (const std::size_t next = after_quoted(css, i); next > i) {
      i = next;
      continue;
    }
    if (depth == 0 && stops.find(c) != std::string_view::npos) return i;
    if (c == '(' || c == '[') ++depth;
    if ((c == ')' || c == ']') && depth > 0) --depth;
    ++i;
  }
  return css.size();
}

// Past the block whose `{` is at `at`.
std::size_t after_block(std::string_view css, std::size_t at) {
  int depth = 0;
  for (std::size_t i = at; i < css.size();) {
    const char c = css[i];
    if (const std::size_t next = after_quoted(css, i); next > i) {
      i = next;
      continue;
    }
    if (c == '{') ++depth;
    if (c == '}' && --depth == 0) return i + 1;
    ++i;
  }
  return css.size();
}

constexpr std::array<std::string_view, 12> forbidden = {
    "javascript:", "vbscript:", "expression(", "image-set(", "image(",       "src(",
    "cross-fade(", "element(",  "paint(",      "attr(",      "-moz-binding", "progid:"};

bool moves(std::string_view property) {
  return property.starts_with("animation") || property.starts_with("transition") ||
         property.starts_with("-webkit-animation") || property.starts_with("-webkit-transition");
}

std::string clean_plain_declarations(std::string_view css, const OnDrop& on_drop) {
  std::string out;
  for (std::size_t i = 0; i < css.size();) {
    const std::size_t end = find_outside(css, i, ";");
    const std::string_view declaration = trimmed(css.substr(i, end - i));
    i = end + 1;
    if (declaration.empty()) continue;
    const std::size_t colon = declaration.find(':');
    if (colon == std::string_view::npos) {
      continue;  // no declaration: every reader of CSS ignores it
    }
    const std::string property = small_letters(trimmed(declaration.substr(0, colon)));
    const std::string_view value = trimmed(declaration.substr(colon + 1));
    if (moves(property)) {
      on_drop(Dropped::animation);
      continue;
    }
    if (property == "behavior" || property == "-moz-binding" || !harmless_value(value) ||
        declaration.find_first_of("{}") != std::string_view::npos) {
      on_drop(Dropped::css_value);
      continue;
    }
    if (!out.empty()) out += ';';
    out.append(property).append(":").append(value);
  }
  return out;
}

}  // namespace

bool harmless_value(std::string_view value) {
  if (value.find_first_of("(:\\") == std::string_view::npos) return true;
  const std::string small = small_letters(plain(value));
  for (const std::string_view word : forbidden)
    if (small.find(word) != std::string::npos) return false;
  for (std::size_t at = small.find("url("); at != std::string::npos;
       at = small.find("url(", at + 1)) {
    std::size_t from = at + 4;
    while (from < small.size() &&
           (is_space(small[from]) || small[from] == '"' || small[from] == '\''))
      ++from;
    if (from >= small.size() || small[from] != '#') return false;
  }
  return true;
}

std::string clean_declarations(std::string_view css, const OnDrop& on_drop) {
  return clean_plain_declarations(plain(css), on_drop);
}

std::string clean_style_sheet(std::string_view raw, const OnDrop& on_drop) {
  const std::string text = plain(raw);
  const std::string_view css = text;
  std::string out;
  for (std::size_t i = 0; i < css.size();) {
    if (is_space(css[i]) || css[i] == '}' || css[i] == ';') {
      ++i;
      continue;
    }
    if (css[i] == '@') {
      const std::string name = small_letters(css.substr(i, 10));
      const std::size_t end = find_outside(css, i, ";{");
      i = end < css.size() && css[end] == '{' ? after_block(css, end) : end + 1;
      if (name.starts_with("@import")) {
        on_drop(Dropped::css_import);
      } else if (!name.starts_with("@charset") && !name.starts_with("@namespace")) {
        on_drop(Dropped::css_rule);
      }
      continue;
    }
    const std::size_t open = find_outside(css, i, "{");
    if (open == css.size()) {
      on_drop(Dropped::css_rule);
      break;
    }
    const std::string_view selector = trimmed(css.substr(i, open - i));
    const std::size_t end = after_block(css, open);
    std::string_view body = css.substr(open + 1, end - open - 1);
    if (body.ends_with('}')) body.remove_suffix(1);
    i = end;
    if (selector.empty() || selector.find_first_of("@;}") != std::string_view::npos ||
        body.find('{') != std::string_view::npos) {
      on_drop(Dropped::css_rule);
      continue;
    }
    const std::string declarations = clean_plain_declarations(body, on_drop);
    if (!declarations.empty()) out.append(selector).append("{").append(declarations).append("}\n");
  }
  return out;
}

void ids_in_urls(std::string_view text, const std::function<void(std::string_view)>& each) {
  for (std::size_t at = text.find("url("); at != std::string_view::npos;
       at = text.find("url(", at + 4)) {
    const std::size_t start = text.find_first_not_of(" \t\r\n\"'", at + 4);
    if (start == std::string_view::npos || text[start] != '#') continue;
    const std::size_t end = text.find_first_of("\"')", start);
    if (end == std::string_view::npos) return;
    each(trimmed(text.substr(start + 1, end - start - 1)));
  }
}

}  // namespace platewright::read
