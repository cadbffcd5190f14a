#include "engine/pieces_report.hpp"

#include "engine/report_parts.hpp"

namespace platewright {

std::string pieces_report(const PiecesReport& report) {
  const compose::PiecesInput& in = *report.input;
  const PageBox area = compose::pieces_area(in);
  JsonWriter json;
  json.object();
  json.key("figure").string(report.figure);
  json.key("files").array();
  for (const std::string& file : report.files) json.string(file);
  json.end();
  json.key("scale").number(in.scale, 9);
  json.key("factor").number(report.factor);
  json.key("paper").string(report.paper);
  json.key("page");
  report_box(json, {0, 0, in.page_width, in.page_height});
  json.key("area");
  report_box(json, area);
  json.key("pages").number(report.nest->pages);
  json.key("bound").number(report.nest->bound);
  json.key("bound_exact").number(report.nest->area / report.page_area);
  json.key("rulers").array();
  for (const compose::PiecePage& page : *report.pages) report_ruler(json, page.ruler);
  json.end();
  const auto piece = [&](const compose::Piece& p) {
    json.key("anchor").string(p.anchor);
    json.key("number").number(p.number);
    json.key("name").string(p.name);
    json.key("corner").array().number(p.corner.x).number(p.corner.y).end();  // figure units
    json.key("middle");  // of the largest circle in it, where its name may stand
    report_point(json, p.middle);
    json.key("radius").number(p.radius);
    json.key("shape");  // in the piece's frame: mm from its corner
    report_polygons(json, p.shape);
    json.key("cut");
    report_polygons(json, p.cut);
  };
  json.key("pieces").array();
  for (std::size_t i = 0; i < report.nested.size(); ++i) {
    const place::NestPlace& at = report.nest->places[i];
    json.object();
    piece(in.pieces[report.nested[i]]);
    json.key("page").number(at.page + 1);
    json.key("turn").number(at.turn);  // degrees clockwise about `at`
    json.key("at");
    report_point(json, {area.x + at.x, area.y + at.y});
    if (at.tag.w > 0) {
      json.key("tag");
      report_box(json, {area.x + at.tag.x, area.y + at.tag.y, at.tag.w, at.tag.h});
    }
    json.end();
  }
  json.end();
  json.key("tiled").array();
  for (const TiledPieceReport& t : *report.tiled) {
    json.object();
    piece(in.pieces[t.piece]);
    json.key("tiles").array();
    for (std::size_t i = 0; i < t.sheets.size(); ++i)
      report_sheet(json, t.sheets[i], t.first_page + i + 1);
    json.end();
    json.end();
  }
  json.end();
  json.end();
  return json.text() + "\n";
}

}  // namespace platewright
