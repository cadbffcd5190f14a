#include "engine/report.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/number.hpp"
#include "compose/extent.hpp"
#include "engine/json.hpp"
#include "engine/planner.hpp"

namespace platewright {
namespace {

// Cap height of Andika, in ems; other text faces are near it.
constexpr double cap_height = 0.725;

void point(JsonWriter& json, PagePoint p) { json.array().number(p.x, 4).number(p.y, 4).end(); }

void box(JsonWriter& json, const PageBox& b) {
  json.array().number(b.x, 4).number(b.y, 4).number(b.w, 4).number(b.h, 4).end();
}

std::string_view name_of(Side side) {
  switch (side) {
    case Side::left: return "left";
    case Side::right: return "right";
    case Side::top: return "top";
    case Side::bottom: return "bottom";
    case Side::inside: return "inside";
  }
  return "inside";
}

// The box of what a sheet really shows for a label, else the box kept for it.
PageBox shown_box(const std::vector<compose::Page>& pages, const PlacedLabel& label) {
  if (!pages.empty())
    for (const compose::Item& item : pages.front().items)
      if (const auto* group = std::get_if<compose::Group>(&item);
          group && group->role == compose::Role::label && group->anchor == label.anchor)
        if (const auto extent = compose::extent(*group)) return *extent;
  return label.box;
}

// What a later run needs to leave labels where they are: in full precision, so that keeping
// everything gives the same bytes.
void kept_fields(JsonWriter& json, const ReportedSheet& sheet) {
  const compose::Plan& plan = *sheet.plan;
  const Layout& layout = plan.layout;
  const Certificate& c = layout.certificate;
  const auto pair = [&](std::string_view key, double x, double y) {
    json.key(key).array().exact(x).exact(y).end();
  };
  json.key("kept").object();
  json.key("style").string(sheet.style);
  pair("paper", layout.paper.width.mm(), layout.paper.height.mm());
  json.key("scale").exact(layout.figure_to_page.scale);
  pair("origin", layout.figure_to_page.origin.x, layout.figure_to_page.origin.y);
  json.key("text_pt").exact(layout.text_size.pt());
  json.key("blanks_beside").boolean(plan.blanks_beside);
  json.key("copy_beside").boolean(plan.copy_beside);
  json.key("blank_lines").number(plan.blank.lines);
  json.key("list_height").exact(plan.list_height);
  json.key("optimal").boolean(c.status == SolveStatus::optimal);
  json.key("cost").exact(c.cost);
  json.key("bound").exact(c.bound);
  json.key("gap").exact(c.gap);
  json.key("polished_cost").exact(c.polished_cost);
  json.key("continuous_bound").exact(c.continuous_bound);
  json.key("continuous_gap").exact(c.continuous_gap);
  json.key("labels").array();
  for (const PlacedLabel& label : layout.labels) {
    json.object();
    json.key("anchor").string(label.anchor);
    json.key("text").string(label.text);
    json.key("side").string(name_of(label.side));
    pair("port", label.port.x, label.port.y);
    pair("target", label.targets.front().x, label.targets.front().y);
    pair("size", label.box.w, label.box.h);
    json.key("as_number").boolean(label.as_number);
    json.end();
  }
  json.end().end();
}

// What keeps the lines to write on away from the leaders; empty where they stand there.
std::string why_ruled_list(const ReportedSheet& sheet) {
  const compose::Plan& plan = *sheet.plan;
  const bool copies = sheet.kind == "copywork";
  if (!copies && sheet.kind != "worksheet" && sheet.kind != "key") return {};
  if (copies ? plan.copy_beside : plan.blanks_beside) return {};
  const std::vector<PlacedLabel>& labels = plan.layout.labels;
  // Where numbers stand for labels, that step tells of it.
  if (std::any_of(labels.begin(), labels.end(), [](const auto& l) { return l.as_number; }))
    return {};
  const std::size_t count = labels.size();
  const std::string what = copies ? "words to trace and copy" : count == 1 ? "blank" : "blanks";
  return std::to_string(count) + " " + what + ", " + format_number(plan.blank.width, 0) +
         " mm by " + format_number(plan.blank.height(), 1) + " mm for the longest answer" +
         (copies ? " and as high again to trace" : "") +
         ", do not fit beside the figure while it keeps " + format_number(100 * spared_scale, 0) +
         " % of its size and its labels their type";
}

void sheet_fields(JsonWriter& json, const ReportedSheet& sheet) {
  const Layout& layout = sheet.plan->layout;
  const Certificate& c = layout.certificate;
  json.key("kind").string(sheet.kind);
  json.key("set").string(sheet.set);
  json.key("files").array();
  for (const std::string& file : sheet.files) json.string(file);
  json.end();
  json.key("pages").number(static_cast<double>(sheet.pages->size()));
  json.key("paper").object();
  json.key("name").string(layout.paper.name);
  json.key("width").number(layout.paper.width.mm(), 4);
  json.key("height").number(layout.paper.height.mm(), 4);
  json.end();
  if (!sheet.check_code.empty()) json.key("check_code").string(sheet.check_code);
  if (!sheet.facts.empty()) {
    json.key("game").object();
    for (const auto& [name, value] : sheet.facts) json.key(name).number(value, 6);
    json.end();
  }
  // A page without a figure has no placement to tell of.
  if (layout.figure_box.w <= 0) return;
  json.key("status").string(c.status == SolveStatus::optimal ? "optimal" : "feasible");
  json.key("cost").number(c.cost);
  json.key("bound").number(c.bound);
  json.key("gap").number(c.gap);
  json.key("polished_cost").number(c.polished_cost);
  json.key("continuous_bound").number(c.continuous_bound);
  json.key("continuous_gap").number(c.continuous_gap);
  json.key("seconds").number(sheet.seconds, 4);
  json.key("scale").number(layout.figure_to_page.scale, 8);
  json.key("figure_origin");
  point(json, layout.figure_to_page.origin);
  json.key("figure_box");
  box(json, layout.figure_box);
  json.key("text_pt").number(layout.text_size.pt(), 3);
  json.key("reads_from_m").number(reading_distance(layout.text_size), 2);
  json.key("fallbacks").array();
  for (const Fallback& f : layout.fallbacks) {
    json.object().key("step").string(f.step).key("witness").string(f.witness).end();
  }
  if (const std::string witness = why_ruled_list(sheet); !witness.empty())
    json.object().key("step").string("ruled-list").key("witness").string(witness).end();
  json.end();
  json.key("labels").array();
  for (const PlacedLabel& label : layout.labels) {
    json.object();
    json.key("anchor").string(label.anchor);
    json.key("text").string(label.text);
    json.key("number").number(label.number);
    json.key("as_number").boolean(label.as_number);
    json.key("side").string(name_of(label.side));
    json.key("box");
    box(json, shown_box(*sheet.pages, label));
    json.key("leader").array();
    if (!label.leaders.empty())
      for (const PagePoint& p : label.leaders.front()) point(json, p);
    json.end();
    json.key("target");
    point(json, label.targets.front());
    if (label.targets.size() > 1) {
      json.key("targets").array();
      for (const PagePoint& p : label.targets) point(json, p);
      json.end();
    }
    json.end();
  }
  json.end();
  const LayoutMetrics& m = layout.metrics;
  json.key("metrics").object();
  json.key("leader_length_mm").number(m.leader_length, 3);
  json.key("shortest_length_mm").number(m.shortest_length, 3);
  json.key("angle_p95_deg").number(m.angle_p95, 3);
  json.key("gap_variation").number(m.gap_variation, 4);
  json.key("balance").number(m.balance, 4);
  json.key("least_balance").number(m.least_balance, 4);
  json.key("detail_crossed_mm").number(m.detail_crossed, 3);
  json.key("detail_of_y_order_mm").number(m.detail_of_y_order, 3);
  json.key("least_detail_mm").number(m.least_detail, 3);
  json.end();
}

}  // namespace

double reading_distance(Length text_size, double arcmin) {
  const double angle = arcmin / 60.0 * std::numbers::pi / 180.0;
  return cap_height * text_size.mm() / 1000.0 / (2.0 * std::tan(angle / 2.0));
}

std::string report_json(const std::string& figure, const std::vector<ReportedSheet>& sheets) {
  JsonWriter json;
  json.object();
  json.key("figure").string(figure);
  // One sheet's fields stand at the top, where a script looks for them; with
  // several, those of the first, and each under "sheets".
  if (!sheets.empty()) sheet_fields(json, sheets.front());
  json.key("sheets").array();
  for (const ReportedSheet& sheet : sheets) {
    json.object();
    sheet_fields(json, sheet);
    if (!sheet.style.empty() && !sheet.plan->layout.labels.empty()) kept_fields(json, sheet);
    json.end();
  }
  json.end().end();
  return json.text() + "\n";
}

}  // namespace platewright
