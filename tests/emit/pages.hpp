// Pages that the emitters' tests write.
#pragma once

#include <string>

#include "emit/emit.hpp"

namespace platewright::emit {

inline const std::string faces =
    "Andika, Noto Sans, Noto Sans Arabic, Noto Sans Hebrew, Noto Sans CJK SC";

inline const std::string art =
    R"svg(<svg xmlns="http://www.w3.org/2000/svg" viewBox="10 20 200 100" width="200" height="100">
<defs><linearGradient id="shade"><stop offset="0" stop-color="#c33"/><stop offset="1" stop-color="#fc6"/></linearGradient></defs>
<style>.part{stroke:#222;stroke-width:2} text{font-family:serif;fill:red}</style>
<g id="body"><circle class="part" cx="60" cy="70" r="40" fill="url(#shade)"/>
<path class="part" data-anchor="wing" fill="#7ac" fill-opacity=".6" d="M80 40L190 60L150 110Z"/></g>
<use href="#body" transform="translate(150 60) scale(.2)"/>
</svg>)svg";

inline Figure figure(std::string svg = art) {
  Figure result;
  result.name = "test.svg";
  result.svg = std::move(svg);
  result.view_box = {10, 20, 200, 100};
  result.painted = {18, 28, 180, 88};
  return result;
}

struct Sheet {
  text::Typesetter typesetter;
  Figure drawn = figure();
  compose::Document document;
  EmitContext context;

  Sheet();
  Sheet(const Sheet&) = delete;

  compose::Page& add_page(double width = 210, double height = 297) {
    compose::Page page;
    page.width = width;
    page.height = height;
    page.title = "The heart: poster";
    page.description = "A heart cut open, seen from the front";
    page.language = "en";
    page.label = std::to_string(document.pages.size() + 1);
    document.pages.push_back(page);
    return document.pages.back();
  }

  compose::FigureItem figure_item(double scale = 0.8, PagePoint origin = {20, 40}) {
    compose::FigureItem item;
    item.transform = {scale, origin};
    return item;
  }

  compose::TextItem text(std::string_view words, PagePoint at, double pt = 14,
                         std::string_view language = "en", bool bold = false) {
    return {typesetter.line(words, {faces, Length::pt(pt), bold, false}, language),
            at,
            Colour{0x1f, 0x1d, 0x26},
            {}};
  }

  compose::Group group(compose::Role role, std::string anchor, compose::Item item) {
    compose::Group result;
    result.role = role;
    result.anchor = std::move(anchor);
    result.items.push_back(std::move(item));
    return result;
  }

  static compose::PathItem stroke(PagePoint from, PagePoint to) {
    compose::PathItem item;
    item.steps = {compose::MoveTo{from}, compose::LineTo{to}};
    item.pen = compose::Pen{};
    return item;
  }

  // A title, the figure, a label with its leader and mark.
  compose::Page& add_poster() {
    compose::Page& page = add_page();
    page.items.push_back(
        group(compose::Role::title, "", text("The heart", {20, 25}, 28, "en", true)));
    page.items.push_back(figure_item());
    page.items.push_back(group(compose::Role::leader, "aorta", stroke({120, 150}, {80, 95})));
    compose::PathItem dot = stroke({79, 95}, {81, 95});
    dot.fill = Colour{0, 0, 0};
    page.items.push_back(group(compose::Role::mark, "aorta", dot));
    page.items.push_back(group(compose::Role::label, "aorta", text("Aorta", {122, 152})));
    return page;
  }
};

// A path of this test's own, since tests run side by side.
std::string place(const std::string& name);
std::string saved(const std::string& name, const std::string& bytes);

// What a command writes, its exit code at the end as "exit N"; it has a minute.
std::string run(const std::string& command);

// Chromium without a window and with a profile of its own; it must be installed.
bool browser_installed();
std::string browse(const std::string& arguments);

}  // namespace platewright::emit
