#include <map>
#include <pugixml.hpp>

#include "base/number.hpp"
#include "emit/art.hpp"
#include "emit/check.hpp"
#include "emit/svg_figure.hpp"
#include "emit/xml_text.hpp"

namespace platewright::emit {
namespace {

using compose::Role;
using pugi::xml_node;

void set(xml_node node, const char* name, const std::string& value) {
  node.append_attribute(name) = xml_text(value).c_str();
}
void set(xml_node node, const char* name, double value) {
  node.append_attribute(name) = format_number(value).c_str();
}

const char* class_of(Role role) {
  switch (role) {
    case Role::title:
      return "pw-title";
    case Role::label:
      return "pw-label";
    case Role::leader:
      return "pw-leader";
    case Role::mark:
      return "pw-mark";
    case Role::blank_list:
      return "pw-list";
    case Role::footer:
      return "pw-footer";
    case Role::instruction:
      return "pw-instruction";
    case Role::word_bank:
      return "pw-word-bank";
    case Role::crop_marks:
      return "pw-crop-marks";
    case Role::ruling:
      return "pw-ruling";
    case Role::plain:
      break;
  }
  return nullptr;
}

std::string point(PagePoint p) { return format_number(p.x) + " " + format_number(p.y); }

struct Steps {
  std::string& d;
  void operator()(const compose::MoveTo& s) const { d += "M" + point(s.to); }
  void operator()(const compose::LineTo& s) const { d += "L" + point(s.to); }
  void operator()(const compose::CurveTo& s) const {
    d += "C" + point(s.control1) + " " + point(s.control2) + " " + point(s.to);
  }
  void operator()(const compose::ClosePath&) const { d += "Z"; }
};

void set_pen(xml_node node, const compose::Pen& pen) {
  set(node, "stroke", to_hex(pen.colour));
  set(node, "stroke-width", pen.width);
  if (pen.round) {
    set(node, "stroke-linecap", std::string("round"));
    set(node, "stroke-linejoin", std::string("round"));
  }
  if (pen.dashes.empty()) return;
  std::string dashes;
  for (const double d : pen.dashes) dashes += (dashes.empty() ? "" : " ") + format_number(d);
  set(node, "stroke-dasharray", dashes);
}

// "Andika, Noto Sans" as a CSS font-family list, every name a string.
std::string families(std::string_view list) {
  std::string result;
  while (!list.empty()) {
    const std::size_t comma = list.find(',');
    std::string_view name = list.substr(0, comma);
    list = comma == std::string_view::npos ? std::string_view{} : list.substr(comma + 1);
    while (name.starts_with(' ')) name.remove_prefix(1);
    while (name.ends_with(' ')) name.remove_suffix(1);
    if (name.empty()) continue;
    result += result.empty() ? "'" : ", '";
    for (const char c : name) {
      if (c == '\'' || c == '\\') result += '\\';
      result += c;
    }
    result += '\'';
  }
  return result;
}

class Writer {
 public:
  Writer(const EmitContext& context, std::string language)
      : context_(context), language_(std::move(language)) {}

  void items(xml_node parent, const std::vector<compose::Item>& all) {
    for (const compose::Item& item : all) {
      parent.append_child(pugi::node_pcdata).set_value("\n");
      std::visit([&](const auto& one) { write(parent, one); }, item);
    }
  }
  Findings& findings() { return findings_; }

 private:
  xml_node write(xml_node parent, const compose::PathItem& item) {
    xml_node path = parent.append_child("path");
    std::string d;
    for (const compose::PathStep& step : item.steps) std::visit(Steps{d}, step);
    set(path, "d", d);
    set(path, "fill", item.fill ? to_hex(*item.fill) : std::string("none"));
    if (item.pen) set_pen(path, *item.pen);
    return path;
  }

  void write(xml_node parent, const compose::TextItem& item) {
    const text::Line& line = item.line;
    xml_node node = parent.append_child("text");
    const bool right_to_left = line.direction == text::Direction::right_to_left;
    // text-anchor "start" is the right end of a line that runs to the left.
    set(node, "x", right_to_left ? item.at.x + line.advance : item.at.x);
    set(node, "y", item.at.y);
    set(node, "font-family", families(line.font.face));
    node.append_attribute("font-size") = format_number(line.font.size.mm(), 4).c_str();
    if (line.font.bold) set(node, "font-weight", std::string("bold"));
    if (line.font.italic) set(node, "font-style", std::string("italic"));
    set(node, "fill", item.outline ? std::string("none") : to_hex(item.colour));
    if (item.outline) set_pen(node, *item.outline);
    if (line.advance > 0) {
      set(node, "textLength", line.advance);
      set(node, "lengthAdjust", std::string("spacingAndGlyphs"));
    }
    if (!line.language.empty() && line.language != language_) {
      set(node, "lang", line.language);
      set(node, "xml:lang", line.language);
    }
    if (right_to_left) set(node, "direction", std::string("rtl"));
    const bool spaces = line.text.starts_with(' ') || line.text.ends_with(' ') ||
                        line.text.find("  ") != std::string::npos;
    if (spaces) set(node, "xml:space", std::string("preserve"));
    node.append_child(pugi::node_pcdata).set_value(xml_text(line.text).c_str());
  }

  void write(xml_node parent, const compose::FigureItem& item) {
    const std::string* svg = document_of(item, context_.art);
    if (svg == nullptr) {
      findings_.push_back(art_missing(item, context_.art));
      return;
    }
    xml_node holder = parent.append_child("g");
    set(holder, "class", std::string("pw-figure"));
    if (item.clip) {
      const std::string id = "pw-clip-" + std::to_string(++clips_);
      xml_node path = holder.append_child("clipPath");
      set(path, "id", id);
      xml_node box = path.append_child("rect");
      set(box, "x", item.clip->x);
      set(box, "y", item.clip->y);
      set(box, "width", item.clip->w);
      set(box, "height", item.clip->h);
      set(holder, "clip-path", "url(#" + id + ")");
    }
    if (item.tint < 1) set(holder, "opacity", std::max(0.0, item.tint));

    const auto known = shown_.find(svg);
    if (known != shown_.end()) {  // the same art once more: moved and scaled from the first
      const auto& [id, first] = known->second;
      const double k = item.transform.scale / first.scale;
      xml_node use = holder.append_child("use");
      set(use, "href", "#" + id);
      set(use, "transform",
          "matrix(" + format_number(k, 9) + " 0 0 " + format_number(k, 9) + " " +
              format_number(item.transform.origin.x - k * first.origin.x, 6) + " " +
              format_number(item.transform.origin.y - k * first.origin.y, 6) + ")");
      return;
    }
    const std::string id = "pwf" + std::to_string(shown_.size() + 1);
    const Figure& figure = *context_.art.figure;
    const std::string fault =
        append_figure(holder, *svg, id, figure.view_box, item.transform(figure.view_box));
    if (!fault.empty())
      findings_.push_back(
          error("art-unreadable", {figure.name, 0, 0}, "the figure's art can't be read: " + fault));
    shown_[svg] = {id, item.transform};
  }

  void write(xml_node parent, const compose::Group& group) {
    const char* name = class_of(group.role);
    const bool direct = group.role == Role::leader || group.role == Role::mark;
    if (direct) {
      for (const compose::Item& item : group.items) {
        if (const auto* path = std::get_if<compose::PathItem>(&item)) {
          xml_node node = write(parent, *path);
          node.prepend_attribute("data-anchor") = xml_text(group.anchor).c_str();
          node.prepend_attribute("class") = name;
        } else {
          items(parent, {item});
        }
      }
      return;
    }
    xml_node node = parent.append_child("g");
    if (name != nullptr) set(node, "class", std::string(name));
    if (group.role == Role::label) set(node, "data-anchor", group.anchor);
    if (!group.clip.empty()) {
      const std::string id = "pw-clip-" + std::to_string(++clips_);
      xml_node clip = node.append_child("clipPath");
      set(clip, "id", id);
      std::string d;
      for (const compose::PathStep& step : group.clip) std::visit(Steps{d}, step);
      set(clip.append_child("path"), "d", d);
      set(node, "clip-path", "url(#" + id + ")");
    }
    if (group.turn != 0)
      set(node, "transform",
          "rotate(" + format_number(group.turn, 6) + " " + format_number(group.pivot.x, 6) + " " +
              format_number(group.pivot.y, 6) + ")");
    items(node, group.items);
  }

  struct Shown {
    std::string id;
    FigureToPage transform;
  };
  const EmitContext& context_;
  std::string language_;
  std::map<const std::string*, Shown> shown_;
  int clips_ = 0;
  Findings findings_;
};

struct StringWriter : pugi::xml_writer {
  std::string bytes;
  void write(const void* data, std::size_t size) override {
    bytes.append(static_cast<const char*>(data), size);
  }
};

}  // namespace

Result<std::string> svg(const compose::Document& document, std::size_t number,
                        const EmitContext& context) {
  Findings findings = check(document, number);
  if (has_error(findings)) return findings;
  const compose::Page& page = document.pages[number];
  const double around = surround(page);
  const double wide = page.width + 2 * around, high = page.height + 2 * around;
  const std::string& language = page.language.empty() ? document.language : page.language;

  pugi::xml_document xml;
  xml_node root = xml.append_child("svg");
  set(root, "xmlns", std::string("http://www.w3.org/2000/svg"));
  set(root, "width", format_number(wide) + "mm");
  set(root, "height", format_number(high) + "mm");
  set(root, "viewBox",
      format_number(-around) + " " + format_number(-around) + " " + format_number(wide) + " " +
          format_number(high));
  if (!language.empty()) {
    set(root, "lang", language);
    set(root, "xml:lang", language);
  }
  set(root, "role", std::string("img"));
  const std::string& title = page.title.empty() ? document.title : page.title;
  std::string labelled;
  const auto describe = [&](const char* element, const char* id, const std::string& words) {
    if (words.empty()) return;
    xml_node node = root.append_child(element);
    set(node, "id", std::string(id));
    node.append_child(pugi::node_pcdata).set_value(xml_text(words).c_str());
    labelled += (labelled.empty() ? "" : " ") + std::string(id);
  };
  describe("title", "pw-page-title", title);
  describe("desc", "pw-page-description", page.description);
  if (!labelled.empty()) set(root, "aria-labelledby", labelled);

  Writer writer(context, language);
  writer.items(root, page.items);
  if (has_error(writer.findings())) return sorted(writer.findings());
  root.append_child(pugi::node_pcdata).set_value("\n");
  StringWriter out;
  out.bytes = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
  // Raw: spaces added inside text would be shown.
  xml.save(out, " ", pugi::format_raw | pugi::format_no_declaration, pugi::encoding_utf8);
  out.bytes += '\n';
  return std::move(out.bytes);
}

}  // namespace platewright::emit
