// Which installed faces a family list names, and what they cover.
#include <algorithm>
#include <filesystem>
#include <set>

#include "text/impl.hpp"
#include "text/unicode.hpp"

namespace platewright::text {
namespace {

using Pattern = Handle<FcPattern, FcPatternDestroy>;

std::vector<std::string> families(std::string_view list) {
  std::vector<std::string> result;
  while (!list.empty()) {
    const std::size_t comma = list.find(',');
    std::string_view name = list.substr(0, comma);
    list = comma == std::string_view::npos ? std::string_view{} : list.substr(comma + 1);
    while (!name.empty() && name.front() == ' ') name.remove_prefix(1);
    while (!name.empty() && name.back() == ' ') name.remove_suffix(1);
    if (!name.empty()) result.emplace_back(name);
  }
  return result;
}

const FcChar8* fc_string(const std::string& text) {
  return reinterpret_cast<const FcChar8*>(text.c_str());
}

bool serves(FcPattern* match, const std::string& family) {
  FcChar8* name = nullptr;
  for (int i = 0; FcPatternGetString(match, FC_FAMILY, i, &name) == FcResultMatch; ++i)
    if (FcStrCmpIgnoreCase(name, fc_string(family)) == 0) return true;
  return false;
}

// The face that fontconfig gives for the family, or nothing when it is another family's.
Pattern face_of(const std::string& family, bool bold, bool italic) {
  const Pattern wanted(FcPatternCreate());
  FcPatternAddString(wanted.get(), FC_FAMILY, fc_string(family));
  FcPatternAddInteger(wanted.get(), FC_WEIGHT, bold ? FC_WEIGHT_BOLD : FC_WEIGHT_REGULAR);
  FcPatternAddInteger(wanted.get(), FC_SLANT, italic ? FC_SLANT_ITALIC : FC_SLANT_ROMAN);
  FcConfigSubstitute(nullptr, wanted.get(), FcMatchPattern);
  FcDefaultSubstitute(wanted.get());
  FcResult status = FcResultNoMatch;
  Pattern match(FcFontMatch(nullptr, wanted.get(), &status));
  if (!match || !serves(match.get(), family)) return nullptr;
  return match;
}

const std::vector<CharSet>& coverage(Typesetter::Impl& impl, const Font& font) {
  const Typesetter::Impl::Face key{font.face, font.bold, font.italic};
  const auto known = impl.coverage.find(key);
  if (known != impl.coverage.end()) return known->second;
  std::vector<CharSet> sets;
  for (const std::string& family : families(font.face)) {
    const Pattern face = face_of(family, font.bold, font.italic);
    FcCharSet* set = nullptr;
    if (face && FcPatternGetCharSet(face.get(), FC_CHARSET, 0, &set) == FcResultMatch)
      sets.push_back({Handle<FcCharSet, FcCharSetDestroy>(FcCharSetCopy(set))});
  }
  return impl.coverage[key] = std::move(sets);
}

}  // namespace

std::vector<char32_t> Typesetter::missing(std::string_view text, const Font& font) const {
  const std::vector<CharSet>& sets = coverage(*impl_, font);
  std::vector<char32_t> result;
  std::set<char32_t> seen;
  for (const char32_t c : characters(cleaned(text))) {
    if (needs_no_glyph(c) || !seen.insert(c).second) continue;
    const bool covered = std::any_of(sets.begin(), sets.end(), [&](const CharSet& set) {
      return FcCharSetHasChar(set.set.get(), c) == FcTrue;
    });
    if (!covered) result.push_back(c);
  }
  return result;
}

bool Typesetter::installed(std::string_view family) const {
  const std::vector<std::string> names = families(family);
  return !names.empty() && face_of(names.front(), false, false) != nullptr;
}

std::string Typesetter::identity(std::string_view list) const {
  std::string text = std::string("pango ") + pango_version_string() + " cairo " +
                     cairo_version_string() + " fontconfig " + std::to_string(FcGetVersion());
  for (const std::string& family : families(list))
    for (const bool bold : {false, true}) {
      const Pattern face = face_of(family, bold, false);
      FcChar8* file = nullptr;
      int version = 0;
      if (!face || FcPatternGetString(face.get(), FC_FILE, 0, &file) != FcResultMatch) continue;
      FcPatternGetInteger(face.get(), FC_FONTVERSION, 0, &version);
      const std::filesystem::path path(reinterpret_cast<const char*>(file));
      std::error_code ignored;
      text += '\n' + path.filename().string() + ' ' + std::to_string(version) + ' ' +
              std::to_string(std::filesystem::file_size(path, ignored));
    }
  return text;
}

}  // namespace platewright::text
