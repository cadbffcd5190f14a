// Parts that reports of sheets at true size share.
#pragma once

#include "compose/guides.hpp"
#include "compose/true_size.hpp"
#include "engine/json.hpp"

namespace platewright {

void report_point(JsonWriter& json, PagePoint p);
void report_box(JsonWriter& json, const PageBox& b);
void report_ruler(JsonWriter& json, const compose::Ruler& r);
void report_sheet(JsonWriter& json, const compose::TileSheet& sheet, std::size_t page);
void report_polygons(JsonWriter& json, const std::vector<place::Polygon>& polygons);

}  // namespace platewright
