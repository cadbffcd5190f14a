#include "engine/proof_report.hpp"

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "emit/picture.hpp"

namespace platewright::proofing {
namespace {

constexpr double around = 12;        // mm shown on each side of a place
constexpr std::uint32_t frame = 0xD02020;

std::string base64(const std::string& bytes) {
  static const char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    std::uint32_t three = 0;
    for (std::size_t k = 0; k < 3; ++k)
      three = three << 8 | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0u);
    for (std::size_t k = 0; k < 4; ++k)
      out += i + k <= bytes.size() ? digits[three >> (18 - 6 * k) & 63] : '=';
  }
  return out;
}

std::string counted(std::ptrdiff_t count, const std::string& what) {
  return std::to_string(count) + ' ' + what + (count == 1 ? "" : "s");
}

std::string html(const std::string& text) {
  std::string out;
  for (const char c : text)
    out += c == '&' ? std::string("&amp;") : c == '<' ? "&lt;" : c == '>' ? "&gt;" : c == '"' ? "&quot;" : std::string(1, c);
  return out;
}

}  // namespace

std::string picture(const read::FinishedPage& page, const PageBox& at) {
  const read::PagePixels& p = page.pixels;
  if (p.rgb.empty()) return {};
  const bool whole = at.w <= 0 && at.h <= 0;
  const PageBox shown = whole ? PageBox{0, 0, page.width, page.height} : at.grown(around);
  const auto pixel = [&](double mm, int most) {
    return std::clamp(static_cast<int>(std::floor(mm * p.per_mm)), 0, most);
  };
  const int left = pixel(shown.left(), p.width), right = pixel(shown.right(), p.width);
  const int top = pixel(shown.top(), p.height), bottom = pixel(shown.bottom(), p.height);
  const int step = whole ? 2 : 1;  // a page at half size
  const int l = pixel(at.left() - 0.7, p.width), r = pixel(at.right() + 0.7, p.width);
  const int t = pixel(at.top() - 0.7, p.height), b = pixel(at.bottom() + 0.7, p.height);
  std::vector<std::uint32_t> rgb;
  int width = 0, height = 0;
  for (int y = top; y < bottom; y += step, ++height) {
    width = 0;
    for (int x = left; x < right; x += step, ++width) {
      const bool in = x >= l && x <= r && y >= t && y <= b;
      const bool inside = x > l + 1 && x < r - 1 && y > t + 1 && y < b - 1;
      rgb.push_back(!whole && in && !inside ? frame : p.at(x, y));
    }
  }
  const std::string png = emit::png_picture(width, height, rgb);
  if (png.empty()) return {};
  return "<img alt=\"The place on the page\" src=\"data:image/png;base64," + base64(png) + "\">";
}

std::string html_report(const ProofOutcome& outcome, const std::vector<std::string>& pictures) {
  const auto errors = std::count_if(outcome.found.begin(), outcome.found.end(), [](const auto& f) {
    return f.finding.severity == Severity::error;
  });
  std::string out =
      "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>Proof</title>\n<style>"
      "body{font:1rem/1.5 Andika,sans-serif;max-width:52rem;margin:2rem auto;padding:0 1rem;color:#1f1d26}"
      "section{border-top:1px solid #999;padding:.8rem 0;display:grid;grid-template-columns:1fr auto;gap:1rem}"
      "h2{font-size:1rem;margin:0}p{margin:.3rem 0}img{max-width:20rem;border:1px solid #999}"
      ".error h2{color:#a01010}.why{color:#595760}</style></head><body>\n<h1>Proof</h1>\n<p>" +
      counted(outcome.files, "file") + ", " + counted(outcome.pages, "page") + ": " +
      counted(errors, "error") + ", " +
      counted(static_cast<std::ptrdiff_t>(outcome.found.size()) - errors, "warning") + ".</p>\n";
  if (!outcome.ink.empty()) {
    double sum = 0;
    for (const double ink : outcome.ink) sum += ink;
    out += "<p>Ink: " + format_number(sum / static_cast<double>(outcome.ink.size()), 1) +
           " % of a page on average, " +
           format_number(*std::max_element(outcome.ink.begin(), outcome.ink.end()), 1) +
           " % at most.</p>\n";
  }
  for (std::size_t i = 0; i < outcome.found.size(); ++i) {
    const Finding& f = outcome.found[i].finding;
    const bool fault = f.severity == Severity::error;
    const auto rule = std::find_if(proof_rules().begin(), proof_rules().end(),
                                   [&](const ProofRule& r) { return r.code == f.code; });
    out += std::string("<section class=\"") + (fault ? "error" : "warning") + "\"><div><h2>" +
           (rule != proof_rules().end() ? "Rule " + std::to_string(rule->number) + ", " : "") +
           html(f.code) + "</h2>\n<p>" + html(f.at.file) +
           (f.at.line > 0 ? ", page " + std::to_string(f.at.line) : "") + "</p>\n<p>" +
           html(f.message) + ".</p>\n";
    if (!f.advice.empty()) out += "<p>" + html(f.advice) + ".</p>\n";
    if (rule != proof_rules().end()) out += "<p class=\"why\">" + std::string(rule->why) + "</p>\n";
    out += "</div>";
    if (i < pictures.size()) out += pictures[i];
    out += "</section>\n";
  }
  return out + "</body></html>\n";
}

}  // namespace platewright::proofing
