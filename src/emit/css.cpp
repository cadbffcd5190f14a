#include "emit/css.hpp"

#include <algorithm>
#include <array>

#include "base/utf8.hpp"

namespace platewright::emit::css {
namespace {

using Kind = Token::Kind;

bool hex(char c) { return is_digit(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F'); }
bool space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f'; }
bool newline(char c) { return c == '\n' || c == '\r' || c == '\f'; }

class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  std::vector<Token> all() {
    std::vector<Token> result;
    while (at_ < text_.size()) result.push_back(next());
    return result;
  }

 private:
  char peek(std::size_t ahead = 0) const {
    return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0';
  }
  bool escape_at(std::size_t ahead) const {
    return peek(ahead) == '\\' && at_ + ahead + 1 < text_.size() && !newline(peek(ahead + 1));
  }
  bool ident_at(std::size_t ahead) const {
    if (peek(ahead) == '-')
      return starts_name(peek(ahead + 1)) || peek(ahead + 1) == '-' || escape_at(ahead + 1);
    return starts_name(peek(ahead)) || escape_at(ahead);
  }
  bool number_at(std::size_t ahead) const {
    if (peek(ahead) == '+' || peek(ahead) == '-') ++ahead;
    return is_digit(peek(ahead)) || (peek(ahead) == '.' && is_digit(peek(ahead + 1)));
  }

  void escape(std::string& to) {  // after the backslash
    if (!hex(peek())) {
      to += text_[at_++];
      return;
    }
    char32_t code = 0;
    for (int i = 0; i < 6 && hex(peek()); ++i) {
      const char c = text_[at_++];
      const int value = is_digit(c) ? c - '0' : (c | 0x20) - 'a' + 10;
      code = code * 16 + static_cast<char32_t>(value);
    }
    if (peek() == '\r' && peek(1) == '\n') ++at_;
    if (space(peek())) ++at_;
    const bool sound = code != 0 && code <= 0x10FFFF && !(code >= 0xD800 && code <= 0xDFFF);
    append_utf8(to, sound ? code : 0xFFFD);
  }

  std::string name() {
    std::string result;
    while (at_ < text_.size()) {
      if (is_in_name(peek())) {
        result += text_[at_++];
      } else if (escape_at(0)) {
        ++at_;
        escape(result);
      } else {
        break;
      }
    }
    return result;
  }

  Token string(char quote) {
    Token token{Kind::string, {}};
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (newline(c)) return {Kind::bad, {}};
      ++at_;
      if (c == quote) return token;
      if (c != '\\') {
        token.value += c;
      } else if (at_ < text_.size()) {
        if (newline(peek())) {  // a continued line
          at_ += peek() == '\r' && peek(1) == '\n' ? 2 : 1;
        } else {
          escape(token.value);
        }
      }
    }
    return token;
  }

  Token url() {  // after "url(" and its spaces
    Token token{Kind::url, {}};
    while (at_ < text_.size()) {
      const char c = text_[at_++];
      if (c == ')') return token;
      if (space(c)) {
        while (space(peek())) ++at_;
        if (at_ >= text_.size()) return token;
        if (peek() == ')') {
          ++at_;
          return token;
        }
        return bad_url();
      }
      if (c == '"' || c == '\'' || c == '(' || static_cast<unsigned char>(c) < 0x20)
        return bad_url();
      if (c == '\\') {
        if (at_ >= text_.size() || newline(peek())) return bad_url();
        escape(token.value);
      } else {
        token.value += c;
      }
    }
    return token;
  }

  Token bad_url() {
    while (at_ < text_.size()) {
      if (escape_at(0)) {
        at_ += 2;
        continue;
      }
      if (text_[at_++] == ')') break;
    }
    return {Kind::bad, {}};
  }

  Token number() {
    Token token{Kind::number, {}};
    if (peek() == '+' || peek() == '-') token.value += text_[at_++];
    const auto digits = [&] {
      while (is_digit(peek())) token.value += text_[at_++];
    };
    digits();
    if (peek() == '.' && is_digit(peek(1))) {
      token.value += text_[at_++];
      digits();
    }
    const bool exponent =
        (peek() == 'e' || peek() == 'E') &&
        (is_digit(peek(1)) || ((peek(1) == '+' || peek(1) == '-') && is_digit(peek(2))));
    if (exponent) {
      token.value += text_[at_++];
      token.value += text_[at_++];
      digits();
    }
    if (peek() == '%') {
      token.value += text_[at_++];
    } else if (ident_at(0)) {
      for (const char c : name())  // units are plain letters; anything else is no unit
        if (is_in_name(c) && static_cast<unsigned char>(c) < 0x80) token.value += c;
    }
    return token;
  }

  Token next() {
    const char c = peek();
    if (space(c)) {
      while (space(peek())) ++at_;
      return {Kind::white, " "};
    }
    if (c == '/' && peek(1) == '*') {
      const std::size_t end = text_.find("*/", at_ + 2);
      at_ = end == std::string_view::npos ? text_.size() : end + 2;
      return {Kind::comment, {}};
    }
    if (c == '"' || c == '\'') {
      ++at_;
      return string(c);
    }
    if (number_at(0)) return number();
    if (text_.substr(at_).starts_with("<!--")) {  // allowed around old style sheets
      at_ += 4;
      return {Kind::comment, {}};
    }
    if (text_.substr(at_).starts_with("-->")) {
      at_ += 3;
      return {Kind::comment, {}};
    }
    if (c == '#' && (is_in_name(peek(1)) || escape_at(1))) {
      ++at_;
      return {Kind::hash, name()};
    }
    if (c == '@' && ident_at(1)) {
      ++at_;
      return {Kind::at, name()};
    }
    if (ident_at(0)) {
      std::string text = name();
      if (peek() != '(') return {Kind::ident, std::move(text)};
      ++at_;
      if (!same_name(text, "url")) return {Kind::function, std::move(text)};
      std::size_t ahead = 0;
      while (space(peek(ahead))) ++ahead;
      if (peek(ahead) == '"' || peek(ahead) == '\'') return {Kind::function, std::move(text)};
      at_ += ahead;
      return url();
    }
    ++at_;
    if (c == '(' || c == '[' || c == '{') return {Kind::open, std::string(1, c)};
    if (c == ')' || c == ']' || c == '}') return {Kind::close, std::string(1, c)};
    return {Kind::delim, std::string(1, c)};
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

char closing(char open) { return open == '(' ? ')' : open == '[' ? ']' : '}'; }

}  // namespace

std::vector<Token> tokens(std::string_view text) { return Reader(text).all(); }

std::size_t after_component(Tokens all, std::size_t at) {
  std::vector<char> closers;
  do {
    const Token& token = all[at++];
    if (token.kind == Kind::function) {
      closers.push_back(')');
    } else if (token.kind == Kind::open) {
      closers.push_back(closing(token.value[0]));
    } else if (token.kind == Kind::close && !closers.empty() && token.is(closers.back())) {
      closers.pop_back();
    }
  } while (!closers.empty() && at < all.size());
  return at;
}

Tokens trimmed(Tokens all) {
  while (!all.empty() && all.front().blank()) all = all.subspan(1);
  while (!all.empty() && all.back().blank()) all = all.first(all.size() - 1);
  return all;
}

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c | 0x20);
  return result;
}

bool same_name(std::string_view a, std::string_view b) { return lower(a) == lower(b); }

}  // namespace platewright::emit::css
