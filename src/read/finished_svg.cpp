// An SVG sheet: its size on paper, its own texts, labels and leaders (what lies
// inside the nested figure is the figure's), the lines and images of all of it as
// librsvg draws them, and its pixels.
#include <algorithm>
#include <cmath>
#include <pugixml.hpp>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "platewright/length.hpp"
#include "read/finished_commands.hpp"
#include "read/read.hpp"
#include "read/svg_drawing.hpp"
#include "read/svg_ids.hpp"

namespace platewright::read {
namespace {

bool has_role(const pugi::xml_node& node, std::string_view wanted) {
  return node.attribute("data-role").value() == wanted;
}

// The points of a path of M and L alone; nothing for any other.
std::vector<PagePoint> straight(std::string_view d) {
  std::vector<double> numbers;
  std::string word;
  const auto end = [&] {
    if (const auto v = parse_number(word)) numbers.push_back(*v);
    word.clear();
  };
  for (const char c : d) {
    if (c == 'M' || c == 'L' || c == ' ' || c == ',') {
      if (!word.empty()) end();
    } else if ((c >= '0' && c <= '9') || c == '.' || c == 'e') {
      word += c;
    } else if (c == '-') {
      if (!word.empty() && word.back() != 'e') end();
      word += c;
    } else {
      return {};
    }
  }
  if (!word.empty()) end();
  std::vector<PagePoint> points;
  for (std::size_t i = 0; i + 1 < numbers.size(); i += 2) points.push_back({numbers[i], numbers[i + 1]});
  return points;
}

struct Own {
  std::vector<pugi::xml_node> texts, labels, leaders;
};

// What the sheet itself draws; a nested svg is the figure.
void collect(const pugi::xml_node& node, Own& own) {
  for (const pugi::xml_node child : node.children()) {
    const std::string_view name = child.name();
    if (name == "svg" || name == "defs") continue;
    if (name == "text") own.texts.push_back(child);
    if (has_role(child, "pw-label")) own.labels.push_back(child);
    if (has_role(child, "pw-leader")) own.leaders.push_back(child);
    collect(child, own);
  }
}

bool filtered(const pugi::xml_document& tree) {
  return !tree.select_node("//*[local-name()='filter']").node().empty();
}

// An attribute of the element or the nearest that it lies in.
std::string inherited(pugi::xml_node node, const char* name) {
  for (; node; node = node.parent())
    if (const auto a = node.attribute(name)) return a.value();
  return {};
}

}  // namespace

Result<Finished> finished_svg(std::string_view bytes, const std::string& path,
                              const EachPage& each) {
  pugi::xml_document raw;
  if (!raw.load_buffer(bytes.data(), bytes.size()))
    return error("svg-unreadable", {path, 0, 0}, "the file is not well-formed XML");
  const auto side = [&](const char* name) -> double {
    const auto length = parse_length(raw.document_element().attribute(name).value());
    return length.ok() ? length->mm() : 0;
  };
  const double width = side("width"), height = side("height");
  if (width <= 0 || height <= 0)
    return error("svg-size", {path, 0, 0}, "the file does not say how large it is on paper",
                 "give width and height with a unit, e.g. 210mm");
  // Our own names of parts are not anchors of a figure here, and classes are kept
  // only where CSS asks for them.
  std::string renamed(bytes);
  for (const auto& [ours, theirs] : {std::pair{" data-anchor=", " data-part="},
                                     std::pair{" class=\"pw-", " data-role=\"pw-"}}) {
    const std::string_view from = ours, to = theirs;
    for (std::size_t at = renamed.find(from); at != std::string::npos; at = renamed.find(from, at))
      renamed.replace(at, from.size(), to);
  }
  auto safe = figure(renamed, path, {});
  if (!safe.ok()) return safe.findings();
  pugi::xml_document tree;
  tree.load_buffer(safe->svg.data(), safe->svg.size(),
                   pugi::parse_default | pugi::parse_ws_pcdata, pugi::encoding_utf8);
  IdMap ids = ids_of(tree.document_element());
  Own own;
  collect(tree.document_element(), own);
  for (const auto* list : {&own.texts, &own.labels})
    for (const pugi::xml_node& node : *list) id_for(node, ids);
  // librsvg measures in the document's own size, where it says one.
  tree.document_element().remove_attribute("width");
  tree.document_element().remove_attribute("height");
  std::string svg;
  struct Writer : pugi::xml_writer {
    std::string* to;
    void write(const void* data, std::size_t size) override {
      to->append(static_cast<const char*>(data), size);
    }
  } writer;
  writer.to = &svg;
  tree.save(writer, "", pugi::format_raw | pugi::format_no_declaration, pugi::encoding_utf8);

  const FigureBox view = safe->view_box;
  const double k = width / view.w;  // mm a unit
  std::string why;
  const auto drawing = Drawing::load(svg, {}, why);
  if (!drawing) return error("svg-unreadable", {path, 0, 0}, "the file can't be drawn: " + escaped(why));

  FinishedPage page;
  page.width = width;
  page.height = height;
  page.trim = page.bleed = {0, 0, width, height};
  page.language = raw.document_element().attribute("lang").value();
  const auto box_of = [&](const pugi::xml_node& node) -> std::optional<PageBox> {
    const auto geometry = drawing->geometry(node.attribute("id").value(), view);
    if (!geometry) return std::nullopt;
    const FigureBox& b = geometry->logical;
    return PageBox{(b.x - view.x) * k, (b.y - view.y) * k, b.w * k, b.h * k};
  };
  for (const pugi::xml_node& node : own.texts) {
    const auto box = box_of(node);
    if (!box) continue;
    FinishedWord word;
    for (const pugi::xpath_node& run : node.select_nodes(".//text()"))
      word.text += run.node().value();
    word.box = *box;
    word.size_pt = parse_number(inherited(node, "font-size")).value_or(0) * k * 72 / 25.4;
    if (const auto colour = parse_colour(inherited(node, "fill")); colour.ok()) word.colour = *colour;
    word.anchor = inherited(node, "data-part");
    page.words.push_back(std::move(word));
  }
  for (const pugi::xml_node& node : own.labels)
    if (const auto box = box_of(node))
      page.labels.push_back({node.attribute("data-part").value(), *box});
  std::size_t leader_points = 0;
  for (const pugi::xml_node& node : own.leaders) {
    auto points = straight(node.attribute("d").value());
    for (PagePoint& p : points) p = {kept_near((p.x - view.x) * k), kept_near((p.y - view.y) * k)};
    leader_points += points.size();
    if (leader_points > most_leader_points)
      return error("svg-large", {path, 0, 0},
                   "the leaders have more points than can be looked at, " +
                       std::to_string(most_leader_points),
                   "make the figure simpler");
    const double line = parse_number(inherited(node, "stroke-width")).value_or(1) * k * 72 / 25.4;
    const auto colour = parse_colour(inherited(node, "stroke"));
    if (points.size() >= 2)
      page.leaders.push_back({node.attribute("data-part").value(), std::move(points), line,
                              colour.ok() ? *colour : Colour{}});
  }
  const auto drawn = drawing->pdf(width / mm_per_point, height / mm_per_point);
  if (!drawn) return error("svg-unreadable", {path, 0, 0}, "the file can't be drawn whole");
  Findings findings =
      each_page_commands(*drawn, path, [&](PageCommands&& commands, std::size_t, std::size_t) {
        page.strokes = std::move(commands.strokes);
        // A filter's pixels are the renderer's, not the file's.
        if (!filtered(tree)) page.images = std::move(commands.images);
        return Findings{};
      });
  if (!findings.empty()) return findings;

  PagePixels& p = page.pixels;
  p.per_mm = pixels_per_mm(width, height);
  RasterFrame frame;
  frame.view = view;
  frame.scale = p.per_mm * k;
  frame.width = p.width = static_cast<int>(std::lround(width * p.per_mm));
  frame.height = p.height = static_cast<int>(std::lround(height * p.per_mm));
  if (p.width < 1 || p.height < 1 || p.width > 20000 || p.height > 20000)
    return error("svg-size", {path, 0, 0}, "the page is too large or too small to look at");
  Pixels pixels;
  if (!drawing->render(frame, {0, 0, p.width, p.height}, {}, {}, pixels))
    return error("svg-unreadable", {path, 0, 0}, "the file can't be drawn whole");
  p.rgb.reserve(pixels.argb.size());
  for (const std::uint32_t argb : pixels.argb) {
    const std::uint32_t white = 255 - (argb >> 24);
    std::uint32_t rgb = 0;
    for (const int shift : {16, 8, 0}) rgb |= std::min(255u, (argb >> shift & 255) + white) << shift;
    p.rgb.push_back(rgb);
  }
  Finished out;
  out.path = path;
  if (each) each(page, 0);
  out.pages.push_back(std::move(page));
  return out;
}

}  // namespace platewright::read
