#include "emit/css_scope.hpp"

#include <algorithm>
#include <array>

#include "emit/css.hpp"
#include "emit/css_selector.hpp"

namespace platewright::emit::css {
namespace {

using Kind = Token::Kind;

constexpr int deepest = 32;  // at-rules within at-rules

template <std::size_t n>
bool one_of(std::string_view name, const std::array<std::string_view, n>& names) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

// url(...) and what it may hold: an id of the figure, or data.
std::optional<std::string> reference(std::string_view target, const Scope& scope) {
  if (target.starts_with('#')) return "#" + scope.id_of(target.substr(1));
  if (lower(target.substr(0, 5)) == "data:") return std::string(target);
  return std::nullopt;
}

// Tokens of a value with ids renamed, or nothing when it would fetch something.
std::optional<std::vector<Token>> value(Tokens all, const Scope& scope) {
  static constexpr std::array<std::string_view, 8> fetching = {
      "image-set",          "-webkit-image-set", "image", "cross-fade",
      "-webkit-cross-fade", "element",           "paint", "expression"};
  std::vector<Token> result;
  std::vector<bool> in_url;
  for (const Token& token : all) {
    Token copy = token;
    switch (token.kind) {
      case Kind::bad:
      case Kind::at:
        return std::nullopt;
      case Kind::open:
        if (token.is('{')) return std::nullopt;
        in_url.push_back(false);
        break;
      case Kind::close:
        if (in_url.empty()) return std::nullopt;
        in_url.pop_back();
        break;
      case Kind::function: {
        const std::string name = lower(token.value);
        if (one_of(name, fetching)) return std::nullopt;
        in_url.push_back(name == "url" || name == "src");
        break;
      }
      case Kind::url:
      case Kind::string:
        if (token.kind == Kind::url || (!in_url.empty() && in_url.back())) {
          const auto renamed = reference(token.value, scope);
          if (!renamed) return std::nullopt;
          copy.value = *renamed;
        }
        break;
      default:
        break;
    }
    result.push_back(std::move(copy));
  }
  // A bracket left open would swallow what follows.
  if (!in_url.empty()) return std::nullopt;
  return result;
}

std::string declarations(Tokens all, const Scope& scope, bool root) {
  static constexpr std::array<std::string_view, 3> never = {"behavior", "-moz-binding", "all"};
  static constexpr std::array<std::string_view, 14> placing = {
      "x",          "y",        "width",    "height", "min-width", "min-height", "max-width",
      "max-height", "position", "overflow", "left",   "top",       "inset",      "zoom"};
  std::string result;
  for (std::size_t at = 0; at < all.size();) {
    const std::size_t begin = at;
    while (at < all.size() && !all[at].is(';')) at = after_component(all, at);
    const Tokens one = trimmed(all.subspan(begin, at - begin));
    if (at < all.size()) ++at;
    if (one.size() < 2 || one[0].kind != Kind::ident) continue;
    std::size_t colon = 1;
    while (colon < one.size() && one[colon].blank()) ++colon;
    if (colon >= one.size() || !one[colon].is(':')) continue;
    const std::string name = lower(one[0].value);
    if (one_of(name, never)) continue;
    if (root &&
        (one_of(name, placing) || name.starts_with("overflow-") || name.starts_with("inset-")))
      continue;
    const auto renamed = value(trimmed(one.subspan(colon + 1)), scope);
    if (!renamed || renamed->empty()) continue;
    if (!result.empty()) result += ';';
    result += written(one[0]) + ":" + written(*renamed);
  }
  return result;
}

class Sheet {
 public:
  explicit Sheet(const Scope& scope) : scope_(scope) {}

  std::string rules(Tokens all, int depth) {
    std::string result;
    for (std::size_t at = 0; at < all.size();) {
      if (all[at].blank() || all[at].is(';')) {
        ++at;
        continue;
      }
      const std::size_t begin = at;
      const bool at_rule = all[at].kind == Kind::at;
      while (at < all.size() && !all[at].is('{') && !(at_rule && all[at].is(';')))
        at = after_component(all, at);
      const Tokens prelude = all.subspan(begin, at - begin);
      std::optional<Tokens> block;
      if (at < all.size() && all[at].is('{')) {
        const std::size_t open = at;
        at = after_component(all, at);
        const bool closed = at > open + 1 && all[at - 1].is('}');
        block = all.subspan(open + 1, at - open - 1 - (closed ? 1 : 0));
      } else if (at < all.size()) {
        ++at;
      }
      if (at_rule)
        result += at_rule_of(prelude, block, depth);
      else if (block)
        result += rule(prelude, *block);
    }
    return result;
  }

 private:
  std::string at_rule_of(Tokens prelude, const std::optional<Tokens>& block, int depth) {
    static constexpr std::array<std::string_view, 3> holding = {"media", "supports", "layer"};
    const std::string name = lower(prelude[0].value);
    const Tokens condition = prelude.subspan(1);
    if (name == "namespace" && !block) return "@namespace" + written(condition) + ";\n";
    if (!block || depth >= deepest) return {};
    const auto sound = value(condition, scope_);
    if (!sound) return {};
    if (one_of(name, holding))
      return "@" + name + written(*sound) + "{" + rules(*block, depth + 1) + "}\n";
    if (name == "font-face") {
      const std::string inside = declarations(*block, scope_, false);
      return inside.find("src:") == std::string::npos ? "" : "@font-face{" + inside + "}\n";
    }
    if (name == "keyframes" || name == "-webkit-keyframes")
      return "@" + name + written(*sound) + "{" + keyframes(*block) + "}\n";
    return {};
  }

  std::string keyframes(Tokens all) {
    std::string result;
    for (std::size_t at = 0; at < all.size();) {
      const std::size_t begin = at;
      while (at < all.size() && !all[at].is('{')) at = after_component(all, at);
      if (at >= all.size()) break;
      const auto when = value(trimmed(all.subspan(begin, at - begin)), scope_);
      const std::size_t open = at;
      at = after_component(all, at);
      const bool closed = at > open + 1 && all[at - 1].is('}');
      if (when)
        result +=
            written(*when) + "{" +
            declarations(all.subspan(open + 1, at - open - 1 - (closed ? 1 : 0)), scope_, false) +
            "}";
    }
    return result;
  }

  std::string rule(Tokens prelude, Tokens block) {
    std::string inside, root;  // selectors of what the root holds, and of the root itself
    const auto add = [](std::string& to, const std::string& selector) {
      if (!to.empty()) to += ',';
      to += selector;
    };
    for (std::size_t at = 0; at <= prelude.size();) {
      const std::size_t begin = at;
      while (at < prelude.size() && !prelude[at].is(',')) at = after_component(prelude, at);
      const Tokens selector = trimmed(prelude.subspan(begin, at - begin));
      ++at;
      const std::optional<ScopedSelector> scoped = scoped_selector(selector, scope_);
      if (!scoped) return {};  // one bad selector spoils its rule
      for (const std::string& one : scoped->inside) add(inside, one);
      if (!scoped->root.empty()) add(root, scoped->root);
    }
    std::string result;
    const auto write = [&](const std::string& selectors, const std::string& body) {
      if (!selectors.empty() && !body.empty()) result += selectors + "{" + body + "}\n";
    };
    write(inside, declarations(block, scope_, false));
    write(root, declarations(block, scope_, true));
    return result;
  }

  const Scope& scope_;
};

}  // namespace

std::string Scope::id_of(std::string_view name) const {
  if (!root_id.empty() && name == root_id) return id;
  return id + "-" + std::string(name);
}

std::string Scope::class_of(std::string_view name) const {
  return name.starts_with("pw-") ? id + "-" + std::string(name) : std::string(name);
}

std::string scoped_sheet(std::string_view text, const Scope& scope) {
  return Sheet(scope).rules(tokens(text), 0);
}

std::string scoped_declarations(std::string_view text, const Scope& scope, bool root) {
  return declarations(tokens(text), scope, root);
}

std::optional<std::string> scoped_value(std::string_view text, const Scope& scope) {
  const std::vector<Token> all = tokens(text);
  const auto renamed = value(all, scope);
  if (!renamed) return std::nullopt;
  return written(*renamed);
}

}  // namespace platewright::emit::css
