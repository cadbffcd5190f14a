#include "engine/body_words.hpp"

#include <algorithm>

#include "base/quote.hpp"
#include "engine/planning.hpp"
#include "place/body_labels.hpp"

namespace platewright {
namespace {

constexpr double inset_x = 1.2, inset_y = 0.8;  // mm of white around type, as drawn by compose
constexpr double widest_line = 70;              // mm of a name on one line

}  // namespace

Findings place_body_labels(const Loaded& loaded, bool blanks, const std::string& terms_file,
                           compose::TrueSizeInput& input) {
  const Style& style = loaded.style;
  const AgeRow& age = style.for_age(loaded.matter.youngest);
  const text::Font font{compose::faces(style), age.text_wanted, style.type.bold_labels, false};
  int letters = 1;
  for (const SetLabel& label : loaded.labels)
    letters = std::max(letters, letter_count(label.wording->text));

  std::vector<place::BodyLabelRequest> requests;
  std::vector<compose::BodyLabel> labels;
  for (const SetLabel& label : loaded.labels) {
    compose::BodyLabel body;
    body.anchor = label.anchor;
    place::BodyLabelRequest request;
    request.anchor = label.anchor;
    if (blanks) {
      const int own = style.ruling.uniform_blanks ? letters : letter_count(label.wording->text);
      body.blank_width = (own + 1) * age.pitch.mm();
      request.width = body.blank_width + 2 * inset_x;
      request.height = age.ruling.mm() * (1 + style.ruling.descender);
      request.port_down = request.height - compose::blank_rise;
    } else {
      const auto ways = input.typesetter->ways(label.wording->text, font, loaded.set.language,
                                               style.type.leading, 3);
      auto way = std::find_if(ways.begin(), ways.end(),
                              [](const text::Block& b) { return b.width <= widest_line; });
      if (way == ways.end()) way = ways.end() - 1;
      body.lines = way->lines;
      body.leading = way->leading;
      request.width = way->width + 2 * inset_x;
      request.height = way->height + 2 * inset_y;
      request.port_down = request.height / 2;
    }
    const Anchor& anchor = *input.figure->find(label.anchor);
    for (const AnchorPoint& p : anchor.points)
      request.targets.push_back(
          {(p.at.x - input.corner.x) * input.scale, (p.at.y - input.corner.y) * input.scale});
    if (anchor.kind == AnchorKind::points) {
      // At true size its ends are hands apart, on sheets of their own: each is labelled.
      for (const PagePoint end : request.targets) {
        requests.push_back(request);
        requests.back().targets = {end};
        labels.push_back(body);
      }
      continue;
    }
    // The best few points of a region do.
    if (request.targets.size() > 4) request.targets.resize(4);
    requests.push_back(std::move(request));
    labels.push_back(std::move(body));
  }

  Findings findings;
  const auto places = place::body_labels(requests, input.tiling, *input.occupancy);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const auto term = std::find_if(loaded.terms.terms.begin(), loaded.terms.terms.end(),
                                   [&](const Term& t) { return t.anchor == labels[i].anchor; });
    const SourcePosition at =
        term != loaded.terms.terms.end() ? term->declared : SourcePosition{terms_file, 0, 0};
    if (!places[i].placed) {
      findings.push_back(error("label-unplaced", at,
                               "no sheet has room for the label of " + in_quotes(labels[i].anchor),
                               "make the figure larger or its label shorter"));
      continue;
    }
    if (places[i].across_join)
      findings.push_back(warning(
          "label-across-join", at,
          "the label of " + in_quotes(labels[i].anchor) + " lies on a strip that sheets share",
          "make the figure larger or its label shorter"));
    labels[i].box = places[i].box;
    labels[i].port = places[i].port;
    labels[i].target = places[i].target;
    input.labels.push_back(std::move(labels[i]));
  }
  // Tiles that were empty and now hold a label.
  place::Tiling& tiling = input.tiling;
  std::vector<place::Tile> added;
  for (const compose::BodyLabel& label : input.labels)
    for (int row = 0; row < tiling.rows; ++row)
      for (int column = 0; column < tiling.columns; ++column) {
        const place::Tile tile{row, column};
        const PageBox box = tiling.box(tile);
        const bool holds = box.contains({label.box.left(), label.box.top()}) &&
                           box.contains({label.box.right(), label.box.bottom()});
        const bool elsewhere =
            std::any_of(tiling.printed.begin(), tiling.printed.end(), [&](const place::Tile& t) {
              const PageBox other = tiling.box(t);
              return other.contains({label.box.left(), label.box.top()}) &&
                     other.contains({label.box.right(), label.box.bottom()});
            });
        if (holds && !elsewhere) {
          added.push_back(tile);
          tiling.printed.insert(
              std::lower_bound(tiling.printed.begin(), tiling.printed.end(), tile), tile);
        }
      }
  if (!added.empty()) {
    std::string names;
    for (const place::Tile& tile : added)
      names += (names.empty() ? "" : ", ") + place::tile_name(tile);
    findings.push_back(warning("sheets-added", {terms_file, 0, 0},
                               std::to_string(added.size()) + " more sheets hold labels: " + names,
                               "a set with shorter words or for older readers takes less room"));
    input.order = place::assembly_order(tiling);
  }
  return findings;
}

}  // namespace platewright
