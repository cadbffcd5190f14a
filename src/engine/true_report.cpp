#include "engine/true_report.hpp"

#include "engine/report_parts.hpp"

namespace platewright {
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
  report_point(json, framed(report.scale->from_at));
  json.key("to_at");
  report_point(json, framed(report.scale->to_at));
  json.end();
  json.key("frame");
  report_box(json, {0, 0, view.w * in.scale, view.h * in.scale});
  json.key("painted");
  report_box(json, report.painted);
  json.key("paper").string(report.paper);
  json.key("orientation").string(report.landscape ? "landscape" : "portrait");
  json.key("page");
  report_box(json, {0, 0, in.page_width, in.page_height});
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
  report_ruler(json, report.cover_ruler);
  json.end();
  json.key("tiles").array();
  for (const compose::TileSheet& sheet : *report.sheets)
    report_sheet(json, sheet, static_cast<std::size_t>(sheet.number) + 1);
  json.end();
  json.key("labels").array();
  for (const compose::BodyLabel& label : in.labels) {
    json.object();
    json.key("anchor").string(label.anchor);
    json.key("box");
    report_box(json, label.box);
    json.key("port");
    report_point(json, label.port);
    json.key("target");
    report_point(json, label.target);
    json.end();
  }
  json.end();
  json.end();
  return json.text() + "\n";
}

}  // namespace platewright
