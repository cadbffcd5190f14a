#include <algorithm>

#include "emit/css.hpp"

namespace platewright::emit::css {
namespace {

using Kind = Token::Kind;

bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

void append_escaped(std::string& to, char c) {
  static constexpr std::string_view digits = "0123456789abcdef";
  const auto byte = static_cast<unsigned char>(c);
  to += '\\';
  to += digits[byte >> 4];
  to += digits[byte & 15];
  to += ' ';
}

std::string written_name(std::string_view name, bool may_start_with_digit) {
  std::string result;
  for (std::size_t i = 0; i < name.size(); ++i) {
    const char c = name[i];
    const bool first = i == 0 || (i == 1 && name[0] == '-');
    const bool lone_dash = c == '-' && name.size() == 1;
    if (is_in_name(c) && !lone_dash && !(is_digit(c) && first && !may_start_with_digit)) {
      result += c;
    } else {
      append_escaped(result, c);
    }
  }
  return result;
}

std::string written_string(std::string_view text) {
  std::string result = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\' || c == '<' || static_cast<unsigned char>(c) < 0x20)
      append_escaped(result, c);
    else
      result += c;
  }
  return result + '"';
}

bool plain_url(std::string_view text) {
  static constexpr std::string_view also = "#.:/+=;,_-";
  return std::all_of(text.begin(), text.end(), [](char c) {
    return is_digit(c) || letter(c) || also.find(c) != std::string_view::npos;
  });
}

}  // namespace

std::string written(const Token& token) {
  switch (token.kind) {
    case Kind::white:
      return " ";
    case Kind::comment:
      return "/**/";
    case Kind::ident:
      return written_name(token.value, false);
    case Kind::function:
      return written_name(token.value, false) + "(";
    case Kind::at:
      return "@" + written_name(token.value, false);
    case Kind::hash:
      return "#" + written_name(token.value, true);  // a colour may start with a digit
    case Kind::string:
      return written_string(token.value);
    case Kind::url:
      return "url(" + (plain_url(token.value) ? token.value : written_string(token.value)) + ")";
    case Kind::number:
    case Kind::open:
    case Kind::close:
    case Kind::delim:
      return token.value == "\\" ? std::string() : token.value;
    case Kind::bad:
      break;
  }
  return {};
}

std::string written(Tokens all) {
  std::string result;
  for (const Token& token : all) result += written(token);
  return result;
}

}  // namespace platewright::emit::css
