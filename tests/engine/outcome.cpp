#include "engine/outcome.hpp"

#include <gtest/gtest.h>

#include <cairo.h>

#include <cctype>
#include <filesystem>
#include <pugixml.hpp>

#include "support/words.hpp"

namespace engine_test {

namespace fs = std::filesystem;
using support::contains;

const char* const secret = "PLATEWRIGHT-SECRET-7f3a91";

namespace {

std::string base64(std::string_view bytes) {
  constexpr char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  for (std::size_t i = 0; i + 2 < bytes.size(); i += 3) {
    const auto at = [&](std::size_t k) { return static_cast<unsigned char>(bytes[i + k]); };
    const unsigned v = static_cast<unsigned>(at(0) << 16 | at(1) << 8 | at(2));
    for (const int shift : {18, 12, 6, 0}) out += letters[(v >> shift) & 63U];
  }
  return out;
}

// A picture like no other: 40 x 40 pixels of one violet.
void write_picture(const std::string& file) {
  cairo_surface_t* picture = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 40, 40);
  cairo_t* pen = cairo_create(picture);
  cairo_set_source_rgb(pen, 0x93 / 255.0, 0x17 / 255.0, 0xd5 / 255.0);
  cairo_paint(pen);
  cairo_destroy(pen);
  cairo_surface_write_to_png(picture, file.c_str());
  cairo_surface_destroy(picture);
}

bool gives_away(const std::string& bytes, const Place& place) {
  // The picture's compressed pixels stand after its header, as bytes or as base64.
  const std::string picture = support::bytes_of(place.outside("secret.png")).substr(33);
  return contains(bytes, secret) || contains(bytes, picture.substr(0, 40)) ||
         contains(bytes, base64(picture).substr(8, 40));
}

void walk(const pugi::xml_node& node, const std::string& what) {
  const std::string name = node.name();
  const std::size_t colon = name.find(':');
  const std::string local = colon == std::string::npos ? name : name.substr(colon + 1);
  for (const char* bad : {"script", "foreignObject", "iframe", "handler", "listener", "include"})
    EXPECT_STRNE(local.c_str(), bad) << what;
  for (const pugi::xml_attribute& a : node.attributes()) {
    const std::string key = a.name();
    const std::string value = a.value();
    std::string lower = value;
    for (char& c : lower) c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    const std::size_t cut = key.find(':');
    const std::string plain = cut == std::string::npos ? key : key.substr(cut + 1);
    EXPECT_FALSE(plain.starts_with("on") || plain.starts_with("ON")) << what << ": " << key;
    EXPECT_FALSE(contains(lower, "javascript:")) << what << ": " << value;
    const bool reaches = plain == "href" || plain == "src" || contains(lower, "url(");
    if (!key.starts_with("xmlns") && reaches) {
      EXPECT_FALSE(contains(lower, "http:") || contains(lower, "https:") ||
                   contains(lower, "file:") || contains(lower, "//"))
          << what << ": " << key << "=" << value.substr(0, 200);
      if (plain == "href") {
        EXPECT_TRUE(value.empty() || value[0] == '#' || lower.starts_with("data:image/"))
            << what << ": " << value.substr(0, 200);
      }
    }
  }
  if (local == "style") {
    EXPECT_FALSE(contains(node.child_value(), "@import")) << what;
    EXPECT_FALSE(contains(node.child_value(), "http")) << what;
    EXPECT_FALSE(contains(node.child_value(), "file:")) << what;
  }
  for (const pugi::xml_node& child : node.children())
    if (child.type() == pugi::node_element) walk(child, what);
}

}  // namespace

Place::Place() {
  fs::create_directories(path() / "figures");
  fs::create_directories(path() / "out");
  support::write(outside("secret.txt"), secret);
  support::write(outside("secret.css"), std::string("rect{fill:#9317d5} /*") + secret + "*/");
  support::write(outside("secret.svg"),
                 std::string("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9\" height=\"9\">"
                             "<text id=\"x\">") + secret + "</text></svg>");
  write_picture(outside("secret.png"));
}

bool shows_violet(const std::string& png) {
  cairo_surface_t* picture = cairo_image_surface_create_from_png(png.c_str());
  EXPECT_EQ(cairo_surface_status(picture), CAIRO_STATUS_SUCCESS) << png;
  const int width = cairo_image_surface_get_width(picture);
  const int height = cairo_image_surface_get_height(picture);
  const int stride = cairo_image_surface_get_stride(picture);
  const unsigned char* pixels = cairo_image_surface_get_data(picture);
  bool found = false;
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      const unsigned char* p = pixels + y * stride + 4 * x;  // blue, green, red
      found = found || (p[0] == 0xd5 && p[1] == 0x17 && p[2] == 0x93);
    }
  cairo_surface_destroy(picture);
  return found;
}

void expect_safe_svg(const std::string& bytes, const std::string& what) {
  pugi::xml_document document;
  const pugi::xml_parse_result read = document.load_buffer(
      bytes.data(), bytes.size(), pugi::parse_default | pugi::parse_doctype | pugi::parse_pi);
  ASSERT_TRUE(read) << what << ": " << read.description() << " at " << read.offset;
  EXPECT_FALSE(contains(bytes, "<!DOCTYPE")) << what;
  EXPECT_FALSE(contains(bytes, "<!ENTITY")) << what;
  EXPECT_FALSE(contains(bytes, "<?xml-stylesheet")) << what;
  walk(document, what);
}

support::Finished expect_sheet_or_findings(const Place& place,
                                           const std::vector<std::string>& arguments,
                                           const std::string& output) {
  support::Limits limits;
  limits.seconds = 120;
  if (!support::sanitized()) limits.memory = 3ULL << 29;  // 1.5 GiB of addresses
  limits.folder = place.path().string();
  const auto before = support::contents(place.path() / "out");
  const support::Finished done = support::platewright(arguments, limits);
  const std::string what = arguments.size() > 1 ? arguments[0] + " " + arguments[1] : "";
  EXPECT_FALSE(done.timed_out) << what << ": " << done.said();
  EXPECT_TRUE(done.code == 0 || done.code == 1) << what << ": " << done.said();
  if (!support::sanitized()) {
    EXPECT_LT(done.processor_seconds, 10) << what;
    EXPECT_LT(done.peak_kib, 1 << 20) << what;
  }
  EXPECT_FALSE(gives_away(done.out + done.err, place)) << what << ": " << done.said();
  if (done.code == 0) {
    if (output.empty()) return done;
    EXPECT_TRUE(fs::is_regular_file(output)) << what;
    if (!fs::is_regular_file(output)) return done;
    const std::string bytes = support::bytes_of(output);
    EXPECT_GT(bytes.size(), 100U) << what;
    EXPECT_FALSE(gives_away(bytes, place)) << what;
    if (output.ends_with(".svg")) expect_safe_svg(bytes, what);
  } else {
    EXPECT_TRUE(contains(done.err, "error[")) << what << ": " << done.said();
    for (const char* word : {"terminate called", "std::", "Assertion", "AddressSanitizer",
                             "runtime error"})
      EXPECT_FALSE(contains(done.err, word)) << what << ": " << done.said();
    EXPECT_EQ(support::contents(place.path() / "out"), before) << what << ": " << done.said();
  }
  return done;
}

support::Finished expect_all_sheets_or_findings(const Place& place, const std::string& figure) {
  const support::Finished coloured = expect_sheet_or_findings(
      place, {"sheet", figure, "--kind", "colouring", "--out", place.out("colouring.svg")},
      place.out("colouring.svg"));
  const std::string terms = place.figure("starter.terms.yaml");
  fs::remove(terms);
  const support::Finished listed =
      expect_sheet_or_findings(place, {"anchors", figure, "--starter", terms}, {});
  if (listed.code != 0 || listed.out.empty()) return coloured;
  for (const std::string out : {"poster.svg", "poster.pdf"})
    expect_sheet_or_findings(place,
                             {"sheet", figure, "--terms", terms, "--set", "middle", "--kind",
                              "poster", "--out", place.out(out)},
                             place.out(out));
  fs::remove(terms);
  return coloured;
}

std::string test_name(const testing::TestParamInfo<std::string>& info) {
  std::string name = info.param;
  for (char& c : name)
    if (!std::isalnum(static_cast<unsigned char>(c))) c = '_';
  return name;
}

std::string plain_figure(const std::string& inside, const std::string& before) {
  return before +
         "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" "
         "viewBox=\"0 0 200 100\"><title>Plain</title>"
         "<rect data-anchor=\"left-half\" x=\"10\" y=\"10\" width=\"80\" height=\"80\" "
         "fill=\"#88aacc\"/><rect data-anchor=\"right-half\" x=\"110\" y=\"10\" width=\"80\" "
         "height=\"80\" fill=\"#ccaa88\"/>" +
         inside + "</svg>";
}

std::string plain_terms() {
  return "figure: plain.svg\nsets:\n  middle: {ages: 7-10, language: en}\nterms:\n"
         "  left-half: {middle: Left half}\n  right-half: {middle: Right half}\n";
}

}  // namespace engine_test
