// Pango's side of the typesetter; seen by this folder's sources only.
#pragma once

#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>

#include <map>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "text/handle.hpp"
#include "text/text.hpp"

namespace platewright::text {

struct CharSet {
  Handle<FcCharSet, FcCharSetDestroy> set;
};

// Not for two threads at once: Pango's contexts and font maps are not.
struct Typesetter::Impl {
  Handle<PangoFontMap, g_object_unref> map;
  Handle<PangoContext, g_object_unref> context;

  using Face = std::tuple<std::string, bool, bool>;  // family list, bold, italic
  struct Extents {
    double ascent = 0, descent = 0;  // ems
  };
  std::map<Face, Extents> primary;                // of the first face of the list
  std::map<Face, std::vector<CharSet>> coverage;  // of the listed faces installed
};

// All type is shaped at one size and scaled, so that lengths are linear in the
// size to the last digit: `em_units` Pango device units to the em. Pango's
// coordinates are 32 bits, hence fewer for a text of monstrous length.
double em_units(std::string_view text);

Handle<PangoLayout, g_object_unref> shaped(const Typesetter::Impl& impl, const std::string& text,
                                           const Font& font, std::string_view language,
                                           Direction direction);

Line measured(Typesetter::Impl& impl, std::string text, const Font& font, std::string_view language,
              Direction direction);

}  // namespace platewright::text
