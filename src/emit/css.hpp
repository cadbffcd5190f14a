// CSS tokens (CSS Syntax Module Level 3, section 4), enough to rewrite a
// figure's styles safely: whatever is read is written back well-formed.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace platewright::emit::css {

struct Token {
  enum class Kind {
    white,    // spaces
    comment,  // written as /**/
    ident,
    function,  // name( ; the bracket included
    at,        // @name
    hash,      // #name
    string,
    url,     // url(unquoted)
    number,  // with its unit or percent sign
    open,    // ( [ {
    close,   // ) ] }
    delim,   // any other character
    bad,     // an unfinished string or a broken url
  } kind = Kind::delim;
  std::string value;  // escapes decoded; of function, at and hash the name alone

  bool is(char character) const {
    return (kind == Kind::delim || kind == Kind::open || kind == Kind::close) &&
           value.size() == 1 && value[0] == character;
  }
  bool blank() const { return kind == Kind::white || kind == Kind::comment; }
};

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }
// A letter, or of any other script.
constexpr bool starts_name(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' ||
         static_cast<unsigned char>(c) >= 0x80;
}
constexpr bool is_in_name(char c) { return starts_name(c) || is_digit(c) || c == '-'; }

using Tokens = std::span<const Token>;

std::vector<Token> tokens(std::string_view text);

// Writes tokens so that reading them again gives the same tokens.
std::string written(const Token& token);
std::string written(Tokens tokens);

// Index just after the component that starts at `at`: one token, or a bracket
// with all it holds (to the end when it is never closed).
std::size_t after_component(Tokens tokens, std::size_t at);

Tokens trimmed(Tokens tokens);                           // without blanks at both ends
bool same_name(std::string_view a, std::string_view b);  // ASCII case ignored
std::string lower(std::string_view text);

}  // namespace platewright::emit::css
