#include "engine/true_report.hpp"

#include "engine/json.hpp"

namespace platewright {
namespace {

void point(JsonWriter& json, PagePoint p) { json.array().number(p.x).number(p.y).end(); }

void box(JsonWriter& json, const PageBox& b) {
  json.array().number(b.x).number(b.y).number(b.w).number(b.h).end();
}

void ruler(JsonWriter& json, const compose::Ruler& r) {
  json.object();
  json.key("cm").array();
  point(json, r.cm_from);
  point(json, r.cm_to);
  json.end();
  json.key("in").array();
  point(json, r.in_from);
  point(json, r.in_to);
  json.end();
  json.end();
}

}  // namespace

std::string true_size_report(const TrueSizeReport& report) {
  const compose::TrueSizeInput& in = *report.input;
  const FigureBox& view = in.figure->view_box;
  const auto framed = [&](FigurePoint p) -> PagePoint {
    return {(p.x - view.x) * in.scale, (p.y - view.y) * in.scale};
  };
  JsonWriter json;
  json.object();
  json.key("figure").string(report.figure);
  json.key("files").array();
  for (const std::string& file : report.files) json.string(file);
  json.end();
  json.key("scale").number(in.scale, 9);
  json.key("length").object();
  json.key("from").string(report.scale->from);
  json.key("to").string(report.scale->to);
  json.key("mm").number(report.scale->length.mm());
  json.key("from_at");
  point(json, framed(report.scale->from_at));
  json.key("to_at");
  point(json, framed(report.scale->to_at));
  json.end();
  json.key("frame");
  box(json, {0, 0, view.w * in.scale, view.h * in.scale});
  json.key("painted");
  box(json, report.painted);
  json.key("paper").string(report.paper);
  json.key("orientation").string(report.landscape ? "landscape" : "portrait");
  json.key("page");
  box(json, {0, 0, in.page_width, in.page_height});
  json.key("overlap").number(in.tiling.overlap);
  json.key("rows").number(in.tiling.rows);
  json.key("columns").number(in.tiling.columns);
  json.key("sheets").number(static_cast<double>(in.tiling.printed.size()));
  json.key("box_sheets").number(report.box_sheets);
  json.key("exact").boolean(in.tiling.exact);
  json.key("order").array();
  for (const place::Tile& tile : in.order) json.string(place::tile_name(tile));
  json.end();
  json.key("cover").object();
  json.key("page").number(1);
  json.key("ruler");
  ruler(json, report.cover_ruler);
  json.end();
  json.key("tiles").array();
  for (const compose::TileSheet& sheet : *report.sheets) {
    json.object();
    json.key("page").number(sheet.number + 1);
    json.key("sheet").number(sheet.number);
    json.key("name").string(place::tile_name(sheet.tile));
    json.key("step").number(sheet.step);
    json.key("place");
    box(json, sheet.place);
    json.key("printable");
    box(json, sheet.printable);
    json.key("ruler");
    ruler(json, sheet.ruler);
    json.key("crosses").array();
    for (const PagePoint& c : sheet.crosses) point(json, c);
    json.end();
    json.key("marks").array();
    for (const PageBox& m : sheet.marks) box(json, m);
    json.end();
    json.end();
  }
  json.end();
  json.key("labels").array();
  for (const compose::BodyLabel& label : in.labels) {
    json.object();
    json.key("anchor").string(label.anchor);
    json.key("box");
    box(json, label.box);
    json.key("port");
    point(json, label.port);
    json.key("target");
    point(json, label.target);
    json.end();
  }
  json.end();
  json.end();
  return json.text() + "\n";
}

}  // namespace platewright
