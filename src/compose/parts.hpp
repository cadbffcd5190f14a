// Parts that several kinds of sheet are put together from.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "compose/page.hpp"
#include "compose/plan.hpp"

namespace platewright::compose {

enum class Align { left, centre, right };

// A line of type with its baseline at `y`, aligned at `x`.
TextItem text_at(const text::Line& line, double x, double y, Align align, Colour colour);

// A straight stroke.
// Of the paper's colour, beneath a leader and a little wider, ending where it ends.
Pen casing_pen(const Style& style);
PathItem stroke(PagePoint from, PagePoint to, const Pen& pen);
PathItem rectangle(const PageBox& box, std::optional<Colour> fill, std::optional<Pen> pen,
                   double corner = 0);
// Four Bezier arcs; off a true circle by at most 0.03 % of the radius.
PathItem circle(PagePoint centre, double radius, std::optional<Colour> fill,
                std::optional<Pen> pen);

// An empty page of the plan's size with title, footer and, where the style has
// them, bleed and crop marks. `note` goes to the footer's far end.
Page start_page(const SheetInput& input, std::string_view kind_name, std::string_view note);

// Below the title: an instruction, and a line for the reader's name.
void add_row(Page& page, const SheetInput& input, std::string_view instruction, bool name_line);

// The figure, its leaders and their marks. `art` as the style asks.
void add_figure(Page& page, const SheetInput& input, Art art, double outline_width_mm);
void add_leaders(Page& page, const SheetInput& input);

// Where a label's text begins on the side of its leader.
Align align_of(const PlacedLabel& label);

// The wording of a label at its place, numbers where it did not fit.
void add_label_texts(Page& page, const SheetInput& input);
void add_label_numbers(Page& page, const SheetInput& input);

// The box that `lines` of type take beside the port of `label`, on the page.
PageBox text_box(const SheetInput& input, const PlacedLabel& label);

// Labels in the order of their numbers.
std::vector<const PlacedLabel*> by_number(const Layout& layout);

// Baseline, dashed midline and top line; `x` and `width` in mm.
Group ruling(const SheetInput& input, double x, double baseline, double width, double height,
             bool guides);

}  // namespace platewright::compose
