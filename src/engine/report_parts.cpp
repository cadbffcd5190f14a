#include "engine/report_parts.hpp"

namespace platewright {

void report_point(JsonWriter& json, PagePoint p) { json.array().number(p.x).number(p.y).end(); }

void report_box(JsonWriter& json, const PageBox& b) {
  json.array().number(b.x).number(b.y).number(b.w).number(b.h).end();
}

void report_ruler(JsonWriter& json, const compose::Ruler& r) {
  json.object();
  json.key("cm").array();
  report_point(json, r.cm_from);
  report_point(json, r.cm_to);
  json.end();
  json.key("in").array();
  report_point(json, r.in_from);
  report_point(json, r.in_to);
  json.end();
  json.end();
}

void report_sheet(JsonWriter& json, const compose::TileSheet& sheet, std::size_t page) {
  json.object();
  json.key("page").number(static_cast<double>(page));
  json.key("sheet").number(sheet.number);
  json.key("name").string(place::tile_name(sheet.tile));
  json.key("step").number(sheet.step);
  json.key("place");
  report_box(json, sheet.place);
  json.key("printable");
  report_box(json, sheet.printable);
  json.key("ruler");
  report_ruler(json, sheet.ruler);
  json.key("crosses").array();
  for (const PagePoint& c : sheet.crosses) report_point(json, c);
  json.end();
  json.key("marks").array();
  for (const PageBox& m : sheet.marks) report_box(json, m);
  json.end();
  json.end();
}

void report_polygons(JsonWriter& json, const std::vector<place::Polygon>& polygons) {
  json.array();
  for (const place::Polygon& polygon : polygons) {
    json.array();
    for (const PagePoint& p : polygon) json.array().number(p.x, 3).number(p.y, 3).end();
    json.end();
  }
  json.end();
}

}  // namespace platewright
