#include "emit/css_selector.hpp"

#include <algorithm>

namespace platewright::emit::css {
namespace {

using Kind = Token::Kind;

// One selector, its ids and root pseudo-classes renamed, or nothing when no
// sound selector.
std::optional<std::vector<Token>> renamed_selector(Tokens all, const Scope& scope) {
  std::vector<Token> result;
  std::vector<char> open;
  std::string attribute;  // inside [...]: its name
  bool exact = false;     // = ^= |= ~= : the value starts an id
  const auto combinator = [](const Token& t) { return t.is('>') || t.is('+') || t.is('~'); };
  for (std::size_t i = 0; i < all.size(); ++i) {
    Token token = all[i];
    const bool in_brackets = !open.empty() && open.back() == '[';
    switch (token.kind) {
      case Kind::white:
      case Kind::comment:
        break;
      case Kind::number:  // :nth-child(2n + 1)
        if (open.empty()) return std::nullopt;
        break;
      case Kind::hash:
        token.value = scope.id_of(token.value);
        break;
      case Kind::function:  // only pseudo-classes are
        if (i == 0 || !all[i - 1].is(':')) return std::nullopt;
        open.push_back('(');
        break;
      case Kind::open:
        if (token.is('{')) return std::nullopt;
        open.push_back(token.value[0]);
        attribute.clear();
        exact = true;
        break;
      case Kind::close:
        if (open.empty() || token.value[0] != (open.back() == '[' ? ']' : ')')) return std::nullopt;
        open.pop_back();
        break;
      case Kind::ident:
      case Kind::string: {
        const bool named = in_brackets && !attribute.empty() && i > 0;
        const bool is_value = named && token.kind == Kind::string;
        const bool after_equals = named && [&] {
          std::size_t k = i;
          while (k > 0 && all[k - 1].blank()) --k;
          return k > 0 && all[k - 1].is('=');
        }();
        if (is_value || after_equals) {
          if (exact && attribute == "id") token.value = scope.id_of(token.value);
          if (exact && attribute == "href" && token.value.starts_with('#'))
            token.value = "#" + scope.id_of(token.value.substr(1));
          if (attribute == "class") token.value = scope.class_of(token.value);
        } else if (in_brackets) {
          attribute = token.value;
        } else if (token.kind == Kind::string) {
          return std::nullopt;
        } else if (i > 0 && all[i - 1].is('.')) {
          token.value = scope.class_of(token.value);
        } else if (i > 0 && all[i - 1].is(':') &&
                   (same_name(token.value, "root") || same_name(token.value, "scope"))) {
          // The nested svg is no document's root; this has the same specificity.
          result.pop_back();
          for (const Token& t : tokens("[id=\"" + scope.id + "\"]")) result.push_back(t);
          continue;
        }
        break;
      }
      case Kind::delim: {
        const std::string_view sound = open.empty()  ? "*.:|>+~,"
                                       : in_brackets ? "|~=^$*"
                                                     : "*.:|>+~,-";
        if (sound.find(token.value[0]) == std::string_view::npos) return std::nullopt;
        if (in_brackets && (token.is('$') || token.is('*'))) exact = false;
        break;
      }
      default:
        return std::nullopt;
    }
    result.push_back(std::move(token));
  }
  if (!open.empty() || result.empty() || combinator(result.front()) || combinator(result.back()))
    return std::nullopt;
  return result;
}

// The first compound of a selector (up to a combinator) and what follows it.
struct Compound {
  std::size_t end = 0;
  bool siblings = false;  // + or ~ follows: a root has none
  bool alone = true;      // nothing follows
};

Compound first_compound(Tokens all) {
  Compound result;
  std::size_t at = 0;
  const auto combinator = [&](const Token& t) { return t.is('>') || t.is('+') || t.is('~'); };
  while (at < all.size() && all[at].kind != Kind::white && !combinator(all[at]))
    at = after_component(all, at);
  result.end = at;
  while (at < all.size() && all[at].blank()) ++at;
  result.alone = at >= all.size();
  result.siblings = !result.alone && (all[at].is('+') || all[at].is('~'));
  return result;
}

// Could the compound (not yet renamed) match the figure's root? When unsure, yes.
bool may_match_root(Tokens compound, const Scope& scope) {
  for (std::size_t i = 0; i < compound.size(); i = after_component(compound, i)) {
    const Token& token = compound[i];
    if (token.kind == Kind::hash && token.value != scope.root_id) return false;
    if (token.kind != Kind::ident) continue;
    const bool after_dot = i > 0 && compound[i - 1].is('.');
    const bool after_colon = i > 0 && compound[i - 1].is(':');
    const bool prefix = i + 1 < compound.size() && compound[i + 1].is('|');
    if (after_dot) {
      if (std::find(scope.root_classes.begin(), scope.root_classes.end(), token.value) ==
          scope.root_classes.end())
        return false;
    } else if (!after_colon && !prefix && token.value != "svg") {
      return false;
    }
  }
  return true;
}

bool names_root(Tokens compound) {
  for (std::size_t i = 0; i < compound.size(); i = after_component(compound, i))
    if (i > 0 && compound[i].kind == Kind::ident && compound[i - 1].is(':') &&
        (same_name(compound[i].value, "root") || same_name(compound[i].value, "scope")))
      return true;
  return false;
}

// Past a type selector, with or without its namespace: where #id may stand.
std::size_t after_type(Tokens compound) {
  std::size_t at = 0;
  const auto type = [&](std::size_t i) {
    return i < compound.size() && (compound[i].kind == Kind::ident || compound[i].is('*'));
  };
  if (type(at)) ++at;
  if (at < compound.size() && compound[at].is('|') && type(at + 1)) at += 2;
  return at;
}

}  // namespace

std::optional<ScopedSelector> scoped_selector(Tokens selector, const Scope& scope) {
  const auto renamed = renamed_selector(selector, scope);
  if (!renamed) return std::nullopt;
  ScopedSelector result;
  const Compound plain = first_compound(selector);
  const Tokens first = selector.first(plain.end);
  if (!names_root(first)) result.inside.push_back("#" + scope.id + " " + written(*renamed));
  if (plain.siblings || !may_match_root(first, scope)) return result;
  const std::size_t type = after_type(first);
  const Tokens all(*renamed);
  const std::string led = written(all.first(type)) + "#" + scope.id + written(all.subspan(type));
  if (plain.alone)
    result.root = led;
  else
    result.inside.push_back(led);
  return result;
}

}  // namespace platewright::emit::css
