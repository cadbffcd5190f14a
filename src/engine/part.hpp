// A part of a pack as it is kept: its PDF, and what binding needs to know of it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/composing.hpp"
#include "engine/load.hpp"
#include "engine/pack_plan.hpp"
#include "text/stroke_font.hpp"
#include "text/text.hpp"

namespace platewright {

struct PartPage {
  double width = 0, height = 0;  // mm, trimmed
  double around = 0;             // bleed and slug
};

struct PartSheet {
  std::string kind;        // "poster"
  std::string label;       // as the contents say it: "Poster"
  std::string version;     // title of the figure's version; empty: as drawn
  std::string check_code;
  int pages = 0;
  int keys = 0;            // pages of its key, which follow its own
  bool is_key = false;     // a key as a whole
};

struct PartRecord {
  std::string title;       // of the figure, as printed
  std::vector<PartSheet> sheets;
  std::vector<PartPage> pages;   // in the order of the PDF
  Findings warnings;             // but those that planning found
  std::string pdf;
};

std::string to_bytes(const PartRecord& record);
// Nothing when the bytes are no record.
std::optional<PartRecord> record_from(std::string_view bytes);

// Composes and draws a part. Its findings are those of the sheets. What it is read and solved
// by is looked for, and kept, where `keeping` says. `known`: where its
// labels stand, with its siblings', in every placement that its kinds ask for.
Result<PartRecord> make_part(const PackPlan& plan, const PackPart& part,
                             const Environment& environment, const text::Typesetter& typesetter,
                             const text::StrokeFont* strokes, const Keeping* keeping = nullptr,
                             Plans known = {});

}  // namespace platewright
