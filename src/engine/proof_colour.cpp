// Rules on colours: contrast of text with what is really beneath it, colours
// that touch and merge in grey or for some readers, ink.
#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "engine/proof_rules.hpp"

namespace platewright::proofing {
namespace {

constexpr int flat_reach = 2;          // pixels of one colour on each side of an edge
constexpr double least_border = 4;     // mm that two colours touch, before it counts
constexpr int seam = 64;               // levels that paper shows through where two edges meet

Colour of(std::uint32_t rgb) {
  return {static_cast<std::uint8_t>(rgb >> 16), static_cast<std::uint8_t>(rgb >> 8),
          static_cast<std::uint8_t>(rgb)};
}

using Three = std::array<double, 3>;

Three linear(Colour c) {
  const auto one = [](std::uint8_t v) {
    const double s = v / 255.0;
    return s <= 0.04045 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4);
  };
  return {one(c.red), one(c.green), one(c.blue)};
}

Colour encoded(const Three& l) {
  const auto one = [](double v) {
    v = std::clamp(v, 0.0, 1.0);
    const double s = v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1 / 2.4) - 0.055;
    return static_cast<std::uint8_t>(std::lround(255 * s));
  };
  return {one(l[0]), one(l[1]), one(l[2])};
}

// CIE L*a*b* of an sRGB colour, white point D65 (IEC 61966-2-1).
Three lab(Colour colour) {
  const Three l = linear(colour);
  const double x = (0.4124 * l[0] + 0.3576 * l[1] + 0.1805 * l[2]) / 0.9505;
  const double y = 0.2126 * l[0] + 0.7152 * l[1] + 0.0722 * l[2];
  const double z = (0.0193 * l[0] + 0.1192 * l[1] + 0.9505 * l[2]) / 1.089;
  const auto f = [](double t) { return t > 0.008856 ? std::cbrt(t) : 7.787 * t + 16.0 / 116; };
  return {116 * f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))};
}

constexpr int ground_reach = 7;   // pixels from a letter's stroke to the ground beside it
constexpr int like_text = 90;     // levels, all channels together, that a pixel may be off the text's colour

int apart(Colour a, Colour b) {
  return std::abs(a.red - b.red) + std::abs(a.green - b.green) + std::abs(a.blue - b.blue);
}

// What lies around the strokes of text in a box: the colour, to sixteen steps a
// channel, that most pixels beside pixels of the text's colour have. Boxes of
// turned words hold more than the word, so the whole box is no answer, except
// where no pixel has the text's full colour.
std::optional<Colour> ground_of(const read::PagePixels& p, const PageBox& box, Colour text) {
  struct Sum {
    long count = 0, red = 0, green = 0, blue = 0;
  };
  std::map<std::uint32_t, Sum> beside, all;
  const auto add = [](std::map<std::uint32_t, Sum>& sums, std::uint32_t rgb) {
    const Colour c = of(rgb);
    Sum& sum = sums[rgb & 0xF0F0F0];
    ++sum.count;
    sum.red += c.red, sum.green += c.green, sum.blue += c.blue;
  };
  const auto is_text = [&](std::uint32_t rgb) {
    return apart(of(rgb), text) < like_text;
  };
  const auto pixel = [&](double mm, int most) {
    return mm > 0 ? static_cast<int>(std::min(mm * p.per_mm, static_cast<double>(most))) : 0;
  };
  const int left = pixel(box.left(), p.width), right = pixel(box.right() + 1 / p.per_mm, p.width);
  const int top = pixel(box.top(), p.height), bottom = pixel(box.bottom() + 1 / p.per_mm, p.height);
  for (int y = top; y < bottom; ++y)
    for (int x = left; x < right; ++x) {
      add(all, p.at(x, y));
      if (!is_text(p.at(x, y))) continue;
      for (const auto& [dx, dy] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}})
        for (int step = 1; step <= ground_reach; ++step) {
          const int u = x + step * dx, v = y + step * dy;
          if (u < 1 || v < 1 || u + 1 >= p.width || v + 1 >= p.height) break;
          // Past the smoothed edge, where a pixel is like those beside it.
          const Colour here = of(p.at(u, v));
          if (is_text(p.at(u, v)) || apart(here, of(p.at(u + dx, v + dy))) > 12 ||
              apart(here, of(p.at(u + dy, v + dx))) > 12 || apart(here, of(p.at(u - dy, v - dx))) > 12)
            continue;
          add(beside, p.at(u, v));
          break;
        }
    }
  const auto& sums = beside.empty() ? all : beside;
  const auto most = std::max_element(sums.begin(), sums.end(), [](const auto& a, const auto& b) {
    return a.second.count < b.second.count;
  });
  if (most == sums.end()) return std::nullopt;
  const Sum& s = most->second;
  return Colour{static_cast<std::uint8_t>(s.red / s.count), static_cast<std::uint8_t>(s.green / s.count),
                static_cast<std::uint8_t>(s.blue / s.count)};
}

void text_contrast(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink) {
  for (const read::FinishedWord& word : page.words) {
    const bool large = word.size_pt >= limits.large_text.pt();
    const double least = large ? limits.large_contrast : limits.contrast;
    const auto ground = ground_of(page.pixels, word.box.grown(0.3), word.colour);
    if (!ground || least <= 0) continue;
    const double ratio = contrast(word.colour, *ground);
    if (ratio < least)
      sink.add(Severity::error, "proof-contrast", word.box,
               in_quotes(word.text) + " in " + to_hex(word.colour) + " on " + to_hex(*ground) +
                   " has a contrast of " + format_number(ratio, 2) + ", not at least " +
                   format_number(least, 1),
               "set it darker, or on lighter ground");
  }
}

struct Border {
  long pixels = 0;
  int x = 0, y = 0;  // first seen
};

constexpr double beside_leader = 0.8;  // mm, its halo and smoothed edges among them
constexpr double thickest = 2;         // mm of a leader; what is thicker is a part
constexpr std::size_t most_stripes = 4'000;  // of a page; a leader of ours has two or three

// Pixels of leaders: a level one is a stripe of one smoothed colour, which is no part of a figure.
std::vector<bool> under_leaders(const read::FinishedPage& page) {
  const read::PagePixels& p = page.pixels;
  std::vector<bool> under;
  // Along the longer way of a line, some pixels to both sides across it.
  const auto stripe = [&](PagePoint a, PagePoint b, double reach) {
    const bool level = std::abs(b.x - a.x) >= std::abs(b.y - a.y);
    const double from = level ? a.x : a.y, to = level ? b.x : b.y;
    const double beside = level ? a.y : a.x, by = (level ? b.y : b.x) - beside;
    const int length = level ? p.width : p.height, across = level ? p.height : p.width;
    const auto pixel = [&](double mm, int most) {
      return static_cast<int>(std::clamp(mm * p.per_mm, 0.0, static_cast<double>(most)));
    };
    const int last = pixel(std::max(from, to) + reach, length);
    for (int i = pixel(std::min(from, to) - reach, length); i < last; ++i) {
      const double share =
          to != from ? std::clamp((i / p.per_mm - from) / (to - from), 0.0, 1.0) : 0;
      const double middle = beside + share * by;
      const int end = pixel(middle + 1.5 * reach, across);
      for (int j = pixel(middle - 1.5 * reach, across); j < end; ++j)
        under[static_cast<std::size_t>(level ? j : i) * static_cast<std::size_t>(p.width) +
              static_cast<std::size_t>(level ? i : j)] = true;
    }
  };
  std::size_t stripes = 0;
  for (const read::FinishedLeader& leader : page.leaders)
    for (std::size_t k = 0; k + 1 < leader.points.size() && stripes < most_stripes;
         ++k, ++stripes) {
      if (under.empty()) under.resize(p.rgb.size());
      stripe(leader.points[k], leader.points[k + 1],
             std::min(thickest, leader.width_pt * read::mm_per_point) / 2 + beside_leader);
    }
  return under;
}

// Pairs of flat colours that touch, without a line between them.
std::map<std::pair<std::uint32_t, std::uint32_t>, Border> borders(const read::FinishedPage& page,
                                                                  double distinct) {
  const read::PagePixels& p = page.pixels;
  const std::vector<bool> under = under_leaders(page);
  const auto is_leader = [&](int x, int y) {
    return !under.empty() && under[static_cast<std::size_t>(y) * static_cast<std::size_t>(p.width) +
                                   static_cast<std::size_t>(x)];
  };
  std::map<std::pair<std::uint32_t, std::uint32_t>, Border> all;
  std::map<std::pair<std::uint32_t, std::uint32_t>, bool> apart;
  const auto look = [&](int x, int y, int dx, int dy) {
    // flat, one pixel of smoothed edge, flat
    std::uint32_t a = p.at(x, y), b = p.at(x + (flat_reach + 1) * dx, y + (flat_reach + 1) * dy);
    if (a == b || is_leader(x, y) ||
        is_leader(x + (flat_reach + 1) * dx, y + (flat_reach + 1) * dy))
      return;
    for (int i = 1; i < flat_reach; ++i)
      if (p.at(x + i * dx, y + i * dy) != a ||
          p.at(x + (flat_reach + 1 + i) * dx, y + (flat_reach + 1 + i) * dy) != b)
        return;
    // The smoothed pixel lies between them: no line in another colour.
    const Colour ca = of(a), cb = of(b), edge = of(p.at(x + flat_reach * dx, y + flat_reach * dy));
    const auto between = [](int v, int l, int r) {
      return v >= std::min(l, r) - seam && v <= std::max(l, r) + seam;
    };
    if (!between(edge.red, ca.red, cb.red) || !between(edge.green, ca.green, cb.green) ||
        !between(edge.blue, ca.blue, cb.blue))
      return;
    const auto key = std::minmax(a, b);
    const auto known = apart.find(key);
    const bool differ = known != apart.end() ? known->second
                                             : (apart[key] = difference(ca, cb) >= distinct);
    if (!differ) return;
    Border& border = all[key];
    if (border.pixels++ == 0) border.x = x, border.y = y;
  };
  const int reach = 2 * flat_reach + 1;
  for (int y = 0; y + reach < p.height; ++y)
    for (int x = 0; x + reach < p.width; ++x) {
      look(x, y, 1, 0);
      look(x, y, 0, 1);
    }
  return all;
}

void merging(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink) {
  if (limits.merging <= 0) return;
  const read::PagePixels& p = page.pixels;
  static const std::array<std::pair<Vision, const char*>, 4> visions = {
      {{Vision::grey, "printed in grey"},
       {Vision::protan, "for readers without red cones"},
       {Vision::deutan, "for readers without green cones"},
       {Vision::tritan, "for readers without blue cones"}}};
  for (const auto& [pair, border] : borders(page, limits.distinct)) {
    if (static_cast<double>(border.pixels) / p.per_mm < least_border) continue;
    std::string who;
    for (const auto& [vision, name] : visions)
      if (difference(seen_by(vision, of(pair.first)), seen_by(vision, of(pair.second))) <
          limits.merging)
        who += (who.empty() ? "" : ", ") + std::string(name);
    if (who.empty()) continue;
    sink.add(Severity::warning, "proof-colours-merge",
             {border.x / p.per_mm - 2, border.y / p.per_mm - 2, 6, 6},
             to_hex(of(pair.first)) + " and " + to_hex(of(pair.second)) +
                 " touch and look the same " + who,
             "make one darker, or put a line between them");
  }
}

}  // namespace

Colour seen_by(Vision vision, Colour colour) {
  const Three l = linear(colour);
  if (vision == Vision::grey) {
    const double y = 0.2126 * l[0] + 0.7152 * l[1] + 0.0722 * l[2];
    return encoded({y, y, y});
  }
  static const std::array<std::array<Three, 3>, 3> matrices = {{
      {{{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}},
      {{{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}},
      {{{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}},
  }};
  const auto& m = matrices[static_cast<std::size_t>(vision) - 1];
  Three out{};
  for (std::size_t i = 0; i < 3; ++i) out[i] = m[i][0] * l[0] + m[i][1] * l[1] + m[i][2] * l[2];
  return encoded(out);
}

double difference(Colour a, Colour b) {
  const Three p = lab(a), q = lab(b);
  return std::sqrt((p[0] - q[0]) * (p[0] - q[0]) + (p[1] - q[1]) * (p[1] - q[1]) +
                   (p[2] - q[2]) * (p[2] - q[2]));
}

// Cyan, magenta, yellow and the black that all three share.
double ink_percent(const read::PagePixels& pixels) {
  if (pixels.rgb.empty()) return 0;
  double sum = 0;
  for (const std::uint32_t rgb : pixels.rgb) {
    if (rgb == 0xFFFFFF) continue;
    const Colour c = of(rgb);
    const double most = std::max({c.red, c.green, c.blue}) / 255.0;
    sum += 1 - most;
    if (most > 0) sum += 3 - (c.red + c.green + c.blue) / 255.0 / most;
  }
  return 100 * sum / static_cast<double>(pixels.rgb.size());
}

void colour_rules(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink) {
  text_contrast(page, limits, sink);
  merging(page, limits, sink);
  const double ink = ink_percent(page.pixels);
  if (limits.most_ink > 0 && ink > limits.most_ink)
    sink.add(Severity::warning, "proof-ink", {},
             "the page takes " + format_number(ink, 0) + " % ink, more than " +
                 format_number(limits.most_ink, 0) + " %",
             "print it in the style ink-saver");
}

}  // namespace platewright::proofing
