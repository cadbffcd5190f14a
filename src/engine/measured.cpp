#include "engine/measured.hpp"

#include <algorithm>

#include "compose/frame.hpp"

namespace platewright {
namespace {

constexpr double reference_pt = 10;
// More ends than this for one region slow the solver and help nobody.
constexpr std::size_t most_ends = 6;
// Another wording is worth several wrapped lines, but never a smaller type size.
constexpr double other_wording_penalty = 3;
// Labels side by side stand at least so many of their type's sizes apart.
constexpr double ems_in_row = 1.5;

// Where in the label's region its text can be read, if it may stand there.
std::shared_ptr<const place::FigureRoom> room_of(const Anchor& anchor, InsideWish wish,
                                                 const Style& style) {
  const bool asked = wish == InsideWish::as_style ? style.leader.inside : wish == InsideWish::yes;
  const FigureGrid& grid = anchor.text_room;
  if (!asked || grid.columns <= 0 || grid.rows <= 0) return nullptr;
  place::FigureRoom room{grid.box, grid.columns, grid.rows, {}};
  const double ink = luminance(style.type.ink);
  for (const std::uint8_t value : grid.values) {
    const double ground = (value - 1) / 254.0;
    const double ratio = (std::max(ink, ground) + 0.05) / (std::min(ink, ground) + 0.05);
    room.free.push_back(value > 0 && ground > ink && ratio >= style.proof.contrast ? 1 : 0);
  }
  return std::make_shared<const place::FigureRoom>(std::move(room));
}

std::string without_breaks(std::string text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\n') {
      out += ' ';
    } else if (text.compare(i, 2, "\xC2\xAD") == 0) {
      ++i;
    } else {
      out += text[i];
    }
  }
  return out;
}

std::vector<place::FitLabel::End> ends_of(const Anchor& anchor, double weight) {
  std::vector<place::FitLabel::End> ends;
  if (anchor.kind == AnchorKind::points) {
    place::FitLabel::End fork;
    for (const AnchorPoint& p : anchor.points) fork.points.push_back(p.at);
    ends.push_back(std::move(fork));
    return ends;
  }
  for (const AnchorPoint& p : anchor.points) {
    if (ends.size() == most_ends) break;
    ends.push_back({{p.at}, weight * p.penalty});
  }
  return ends;
}

}  // namespace

std::vector<MeasuredLabel> measure_labels(const std::vector<SetLabel>& labels,
                                          const std::string& language, const Style& style,
                                          const text::Typesetter& typesetter) {
  const text::Font font{compose::faces(style), Length::pt(reference_pt), style.type.bold_labels,
                        false};
  const double em = Length::pt(reference_pt).mm();
  const text::Line number = typesetter.line(labels.size() < 10    ? "8"
                                            : labels.size() < 100 ? "88"
                                                                         : "888",
                                            font, language);
  std::vector<MeasuredLabel> measured;
  for (const SetLabel& label : labels) {
    MeasuredLabel m;
    m.label = &label;
    m.number_width = number.advance / em;
    m.number_height = (number.ascent + number.descent) / em;
    double wording_penalty = 0;
    const auto add = [&](const std::string& wording) {
      for (const text::Block& block :
           typesetter.ways(wording, font, language, style.type.leading, style.type.most_lines)) {
        LabelWay way;
        way.text = without_breaks(wording);
        // Whichever side the leader comes from, what hangs out there is within the box.
        way.width = (block.width + std::max(text::hangs_left(block.lines),
                                            text::hangs_right(block.lines))) / em;
        way.extent = (block.lines.front().ascent + block.lines.back().descent) / em;
        for (const text::Line& line : block.lines) way.lines.push_back(line.text);
        way.penalty = wording_penalty +
                      style.cost.wrap * static_cast<double>(block.lines.size() - 1);
        m.ways.push_back(std::move(way));
      }
      wording_penalty += other_wording_penalty;
    };
    add(label.wording->text);
    for (const std::string& other : label.wording->alternatives) add(other);
    measured.push_back(std::move(m));
  }
  return measured;
}

double way_height(const LabelWay& way, double size_mm, double leading) {
  return size_mm * (way.extent + leading * static_cast<double>(way.lines.size() - 1));
}

std::vector<place::FitLabel> fit_labels(const std::vector<MeasuredLabel>& measured,
                                        const Figure& figure, const Style& style,
                                        const std::vector<double>& steps_pt, LeastBox least,
                                        std::vector<std::vector<int>>& kept) {
  const double gap = style.leader.label_gap.mm();
  // A word apart they would read as one line.
  const auto beside = [&](double size) {
    return std::max(0.0, std::max(style.rules.row_gap.mm(), ems_in_row * size) -
                             style.rules.label_gap.mm() - gap);
  };
  std::vector<place::FitLabel> labels;
  kept.clear();
  for (const MeasuredLabel& m : measured) {
    place::FitLabel label;
    label.anchor = m.label->anchor;
    label.group = m.label->group;
    label.preferred = m.label->side == PreferredSide::left    ? -1
                      : m.label->side == PreferredSide::right ? 1
                                                              : 0;
    const double last = Length::pt(steps_pt.back()).mm();
    // A way that is no narrower than one before it only costs height. The test
    // at the smallest size holds for the larger ones: blanks dominate there least.
    std::vector<int> keep;
    double narrowest = 1e300;
    for (std::size_t w = 0; w < m.ways.size(); ++w) {
      const double width = std::max(least.width, m.ways[w].width * last);
      if (width < narrowest - 1e-6 || keep.empty()) {
        keep.push_back(static_cast<int>(w));
        narrowest = width;
      }
    }
    for (const double pt : steps_pt) {
      const double size = Length::pt(pt).mm();
      std::vector<place::Variant> variants;
      for (const int w : keep) {
        const LabelWay& way = m.ways[static_cast<std::size_t>(w)];
        place::Variant v;
        v.width = std::max(least.width, way.width * size) + gap;
        v.height = std::max(least.height, way_height(way, size, style.type.leading));
        v.port = v.height / 2;
        v.penalty = way.penalty;
        v.beside = beside(size);
        variants.push_back(v);
      }
      label.variants.push_back(std::move(variants));
    }
    const double size = Length::pt(steps_pt.back()).mm();
    label.number = {m.number_width * size + gap, m.number_height * size,
                    m.number_height * size / 2, 0};
    const Anchor& anchor = *figure.find(label.anchor);
    label.targets = ends_of(anchor, style.cost.target);
    label.room = room_of(anchor, m.label->inside, style);
    labels.push_back(std::move(label));
    kept.push_back(std::move(keep));
  }
  return labels;
}

}  // namespace platewright
