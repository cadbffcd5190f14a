// What the command Do draws: images, and forms, each read once where that can be.
#include <algorithm>
#include <cmath>

#include "read/pdf_commands.hpp"

namespace platewright::read {
namespace {

constexpr std::size_t deepest = 16;          // forms in forms
constexpr std::size_t most_opened = 10'000;  // forms on one page that are read, not known
constexpr std::size_t most_known_strokes = 500'000;
constexpr double most_image_pixels = 100e6;

}  // namespace

QPDFObjectHandle Commands::found(const char* kind) {
  if (operands_.empty() || !operands_.back().isName() || !resources_.isDictionary())
    return QPDFObjectHandle::newDictionary();
  QPDFObjectHandle all = resources_.getKey(kind);
  QPDFObjectHandle one =
      all.isDictionary() ? all.getKey(operands_.back().getName()) : QPDFObjectHandle::newNull();
  return one.isDictionary() || one.isStream() ? one : QPDFObjectHandle::newDictionary();
}

// An image fills the unit square.
void Commands::image(QPDFObjectHandle keys) {
  const auto side = [](QPDFObjectHandle value) {
    return value.isNumber() ? value.getNumericValue() : 0;
  };
  for (QPDFObjectHandle one :
       {keys, keys.getKey("/SMask").isStream() ? keys.getKey("/SMask").getDict() : keys})
    if (side(one.getKey("/Width")) * side(one.getKey("/Height")) > most_image_pixels)
      throw TooMuch();
  double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
  for (const auto& [x, y] : {std::pair{0, 0}, {1, 0}, {0, 1}, {1, 1}}) {
    const PagePoint p = on_page(x, y);
    left = std::min(left, p.x), right = std::max(right, p.x);
    top = std::min(top, p.y), bottom = std::max(bottom, p.y);
  }
  page_.images.push_back({{left, top, right - left, bottom - top},
                          static_cast<int>(std::clamp(side(keys.getKey("/Width")), 0.0, 1e9)),
                          static_cast<int>(std::clamp(side(keys.getKey("/Height")), 0.0, 1e9))});
}

void Commands::form() {
  QPDFObjectHandle one = found("/XObject");
  if (!one.isStream() || progress_.open.size() >= deepest) return;
  QPDFObjectHandle keys = one.getDict();
  if (keys.getKey("/Subtype").isNameAndEquals("/Image")) return image(keys);
  if (!keys.getKey("/Subtype").isNameAndEquals("/Form")) return;
  // One that lies in itself would have no end; readers leave it out there.
  if (std::find(progress_.open.begin(), progress_.open.end(), one.getObjGen()) !=
      progress_.open.end()) {
    ++progress_.cut;
    return;
  }
  QPDFObjectHandle own = keys.getKey("/Resources");
  State state = state_;
  state.matrix = product(matrix_of(keys.getKey("/Matrix")), state_.matrix);
  const FormKey key{one.getObjGen(), state.line, state.miter, progress_.open.size()};
  const bool leads = !marks_.empty() && marks_.back().is_leader;
  if (const auto known = known_.forms.find(key);
      known != known_.forms.end() && !leads && draw_known(known->second, state.matrix))
    return;
  const std::size_t commands = progress_.commands, strokes = page_.strokes.size();
  if (++progress_.opened > most_opened) throw TooMuch();
  check_size(one);
  const std::size_t cut = progress_.cut;
  const std::size_t others = page_.leaders.size() + page_.images.size() + page_.runs.size();
  Commands inside(page_, own.isDictionary() ? own : resources_, state,
                  marks_.empty() ? label_ : marks_.back().label, progress_, known_);
  progress_.open.push_back(one.getObjGen());
  one.parseAsContents(&inside);
  progress_.open.pop_back();
  if (leads || progress_.cut != cut || !own.isDictionary() || !one.isIndirect() ||
      known_.forms.contains(key) ||
      page_.leaders.size() + page_.images.size() + page_.runs.size() != others)
    return;
  keep(key, state.matrix, commands, strokes);
}

// Notes what a form drew, from these numbers of commands and strokes on.
void Commands::keep(const FormKey& key, const Matrix& matrix, std::size_t commands,
                    std::size_t strokes) {
  const std::size_t drawn = page_.strokes.size() - strokes;
  if (known_.strokes + drawn > most_known_strokes) return;
  const auto begin = page_.strokes.begin() + static_cast<std::ptrdiff_t>(strokes);
  const bool near = std::all_of(begin, page_.strokes.end(), [](const FinishedStroke& s) {
    return std::abs(s.box.left()) < farthest / 10 && std::abs(s.box.right()) < farthest / 10 &&
           std::abs(s.box.top()) < farthest / 10 && std::abs(s.box.bottom()) < farthest / 10;
  });
  if (!near) return;
  known_.strokes += drawn;
  known_.forms.emplace(key, KnownForm{matrix,
                                      page_.x,
                                      page_.y + page_.height,
                                      progress_.commands - commands,
                                      {begin, page_.strokes.end()}});
}

// Draws a form that was read before as it comes out here; false where that can't be said.
bool Commands::draw_known(const KnownForm& form, const Matrix& matrix) {
  const auto step = level_step(form.matrix, matrix);
  if (!step) return false;
  count(form.commands);
  const double k = std::sqrt(std::abs((*step)[0] * (*step)[3]));
  for (const FinishedStroke& stroke : form.strokes) {
    const auto moved = [&](double x_mm, double y_mm) {
      return on_page(through(*step, form.x + x_mm / mm_per_point, form.top - y_mm / mm_per_point));
    };
    const PagePoint a = moved(stroke.box.left(), stroke.box.top()),
                    b = moved(stroke.box.right(), stroke.box.bottom());
    page_.strokes.push_back(
        {stroke.width_pt * k,
         {std::min(a.x, b.x), std::min(a.y, b.y), std::abs(a.x - b.x), std::abs(a.y - b.y)},
         stroke.miter_limit});
  }
  return true;
}

}  // namespace platewright::read
