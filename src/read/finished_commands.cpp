// The commands of each page and of the forms it draws (ISO 32000-1, 8.4, 8.5,
// 9.4 and 14.6).
#include "read/finished_commands.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <compare>
#include <exception>
#include <map>
#include <optional>
#include <qpdf/Pipeline.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <tuple>

#include "base/quote.hpp"

namespace platewright::read {
namespace {

using Object = QPDFObjectHandle;

constexpr std::size_t most_pages = 2000;
constexpr std::size_t most_commands = 5'000'000;  // on one page, with its forms
constexpr std::size_t deepest = 16;               // forms in forms
constexpr std::size_t most_opened = 10'000;       // forms on one page that are read, not known
constexpr std::size_t most_unpacked = std::size_t{64} << 20;  // bytes of one stream of commands
constexpr double most_image_pixels = 100e6;
constexpr std::size_t most_leaders = 2'000;   // of a page; and places are kept within 100 m of it
constexpr double farthest = 1e5;
constexpr std::size_t most_marked = 100;   // marked content in marked content

using Matrix = std::array<double, 6>;

Matrix product(const Matrix& m, const Matrix& n) {
  return {m[0] * n[0] + m[1] * n[2],        m[0] * n[1] + m[1] * n[3],
          m[2] * n[0] + m[3] * n[2],        m[2] * n[1] + m[3] * n[3],
          m[4] * n[0] + m[5] * n[2] + n[4], m[4] * n[1] + m[5] * n[3] + n[5]};
}

Matrix matrix_of(Object array) {
  Matrix m{1, 0, 0, 1, 0, 0};
  if (array.isArray() && array.getArrayNItems() == 6)
    for (int i = 0; i < 6; ++i) m[static_cast<std::size_t>(i)] = array.getArrayItem(i).getNumericValue();
  return m;
}

struct TooMuch : std::exception {};

// Counts what a stream unpacks to, and stops where that is too much.
class Counter : public Pipeline {
 public:
  Counter() : Pipeline("counter", nullptr) {}
  void write(unsigned char const*, size_t size) override {
    sum_ += size;
    if (sum_ > most_unpacked) throw TooMuch();
  }
  void finish() override {}
  bool over() const { return sum_ > most_unpacked; }

 private:
  std::size_t sum_ = 0;
};

void check_size(Object stream) {
  if (!stream.isStream()) return;
  Counter counter;
  stream.pipeStreamData(&counter, 0, qpdf_dl_generalized, true, false);
  if (counter.over()) throw TooMuch();  // qpdf only warns
}

PagePoint through(const Matrix& m, double x, double y) {
  return {m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]};
}

std::string text_of(Object o) { return o.isString() ? o.getUTF8Value() : std::string(); }

std::uint8_t level(double v) {
  return static_cast<std::uint8_t>(std::lround(255 * std::clamp(v, 0.0, 1.0)));
}

// What a form without text, images and leaders draws, where it was first met: a figure that a file
// shows many times is read once.
struct KnownForm {
  Matrix matrix;          // of the form, on its page
  double x = 0, top = 0;  // the page's left and top, points
  std::size_t commands = 0;
  std::vector<FinishedStroke> strokes;
};
struct FormKey {
  QPDFObjGen form;
  double line, miter;  // in force where it is drawn
  std::size_t depth;
  auto operator<=>(const FormKey& other) const {
    return std::tuple(form.getObj(), form.getGen(), line, miter, depth) <=>
           std::tuple(other.form.getObj(), other.form.getGen(), other.line, other.miter,
                      other.depth);
  }
};
struct KnownForms {
  std::map<FormKey, KnownForm> forms;
  std::size_t strokes = 0;
};
constexpr std::size_t most_known_strokes = 500'000;

// How far the reading of a page has got.
struct Reading {
  std::size_t commands = 0;
  std::size_t opened = 0;        // forms
  std::vector<QPDFObjGen> open;  // the forms that are being read, each in the one before
  std::size_t cut = 0;           // forms left out, as they lie in themselves
};

// The matrix that does what `to` does after undoing `from`; nothing where it turns or flattens.
std::optional<Matrix> level_step(const Matrix& from, const Matrix& to) {
  const double det = from[0] * from[3] - from[1] * from[2];
  if (!(std::abs(det) > 1e-12)) return std::nullopt;
  const Matrix undo{from[3] / det,
                    -from[1] / det,
                    -from[2] / det,
                    from[0] / det,
                    (from[2] * from[5] - from[3] * from[4]) / det,
                    (from[1] * from[4] - from[0] * from[5]) / det};
  const Matrix step = product(undo, to);
  const double size = std::max(std::abs(step[0]), std::abs(step[3]));
  if (!(size > 0) || std::max(std::abs(step[1]), std::abs(step[2])) > 1e-9 * size)
    return std::nullopt;
  return step;
}

// Reads the commands of a page or a form and notes what they draw.
class Commands : public Object::ParserCallbacks {
 public:
  struct State {
    Matrix matrix{1, 0, 0, 1, 0, 0};
    double line = 1;
    double miter = 10;
    Colour stroke;
  };

  Commands(PageCommands& page, Object resources, const State& state, std::string label,
           Reading& reading, KnownForms& known)
      : page_(page),
        resources_(resources),
        state_(state),
        label_(std::move(label)),
        reading_(reading),
        known_(known) {}

  void handleObject(Object object, size_t, size_t) override {
    if (!object.isOperator()) {
      count(1);
      if (operands_.size() < 64) operands_.push_back(object);
      return;
    }
    const std::string name = object.getOperatorValue();
    if (!path(name) && !text(name)) other(name);
    operands_.clear();
  }
  void handleEOF() override {}

 private:
  struct Mark {
    std::string label, leader;
    bool is_leader = false;
  };

  void count(std::size_t commands) {
    reading_.commands += commands;
    if (reading_.commands > most_commands) throw TooMuch();
  }
  double number(std::size_t i) {
    return i < operands_.size() && operands_[i].isNumber() ? operands_[i].getNumericValue() : 0;
  }
  Matrix six() { return {number(0), number(1), number(2), number(3), number(4), number(5)}; }
  PagePoint on_page(double x, double y) const {
    const PagePoint p = through(state_.matrix, x, y);
    const auto kept = [](double v) { return v > -farthest ? std::min(v, farthest) : -farthest; };
    return {kept((p.x - page_.x) * mm_per_point),
            kept((page_.y + page_.height - p.y) * mm_per_point)};
  }

  void point(double x, double y, bool starts = false) {
    const PagePoint p = on_page(x, y);
    if (!any_) left_ = right_ = p.x, bottom_ = top_ = p.y;
    left_ = std::min(left_, p.x), right_ = std::max(right_, p.x);
    top_ = std::min(top_, p.y), bottom_ = std::max(bottom_, p.y);
    any_ = true;
    if (marks_.empty() || !marks_.back().is_leader) return;
    if (starts || lines_.empty()) lines_.emplace_back();
    lines_.back().push_back(p);
  }
  void stroked() {
    if (!any_) return;
    const Matrix& m = state_.matrix;
    const double width = state_.line * std::sqrt(std::abs(m[0] * m[3] - m[1] * m[2]));
    page_.strokes.push_back({width, {left_, top_, right_ - left_, bottom_ - top_}, state_.miter});
    for (auto& line : lines_)
      if (line.size() >= 2 && page_.leaders.size() < most_leaders)
        page_.leaders.push_back({marks_.back().leader, std::move(line), width, state_.stroke});
  }
  bool path(const std::string& name) {
    if (name == "m" || name == "l") {
      point(number(0), number(1), name == "m");
    } else if (name == "c" || name == "v" || name == "y") {
      for (std::size_t i = 0; i + 1 < operands_.size(); i += 2) point(number(i), number(i + 1));
    } else if (name == "re") {
      point(number(0), number(1), true);
      point(number(0) + number(2), number(1) + number(3));
    } else if (name == "S" || name == "s" || name == "B" || name == "B*" || name == "b" ||
               name == "b*") {
      stroked();
      any_ = false, lines_.clear();
    } else if (name == "f" || name == "F" || name == "f*" || name == "n") {
      any_ = false, lines_.clear();
    } else {
      return false;
    }
    return true;
  }

  void shown() {
    const Matrix m = product(line_, state_.matrix);
    const PagePoint at = on_page(line_[4], line_[5]);
    const bool level_set = m[0] > 0 && std::abs(m[1]) < 0.01 * m[0] && m[3] > 0;
    page_.runs.push_back({at, level_set, marks_.empty() || marks_.back().label.empty()
                                             ? label_
                                             : marks_.back().label});
  }
  void next_line(double x, double y) { line_ = product({1, 0, 0, 1, x, y}, line_); }
  bool text(const std::string& name) {
    if (name == "BT") {
      line_ = {1, 0, 0, 1, 0, 0};
    } else if (name == "Tm") {
      line_ = six();
    } else if (name == "Td" || name == "TD") {
      if (name == "TD") leading_ = -number(1);
      next_line(number(0), number(1));
    } else if (name == "TL") {
      leading_ = number(0);
    } else if (name == "T*") {
      next_line(0, -leading_);
    } else if (name == "'" || name == "\"") {
      next_line(0, -leading_);
      shown();
    } else if (name == "Tj" || name == "TJ") {
      shown();
    } else {
      return false;
    }
    return true;
  }

  void other(const std::string& name) {
    if (name == "q") {
      if (stack_.size() < 1000) stack_.push_back(state_);
    } else if (name == "Q") {
      if (!stack_.empty()) state_ = stack_.back(), stack_.pop_back();
    } else if (name == "cm") {
      state_.matrix = product(six(), state_.matrix);
    } else if (name == "w") {
      state_.line = number(0);
    } else if (name == "M") {
      state_.miter = number(0);
    } else if (name == "RG" || name == "G" || name == "K" || name == "SC" || name == "SCN") {
      stroke_colour();
    } else if (name == "gs") {
      if (Object width = found("/ExtGState").getKey("/LW"); width.isNumber())
        state_.line = width.getNumericValue();
    } else if (name == "BMC" || name == "BDC") {
      marked();
    } else if (name == "EMC") {
      if (unseen_ > 0)
        --unseen_;
      else if (!marks_.empty())
        marks_.pop_back();
    } else if (name == "Do") {
      form();
    }
  }
  // By the number of operands: grey, red-green-blue, or the four inks.
  void stroke_colour() {
    if (operands_.size() == 1) {
      state_.stroke = {level(number(0)), level(number(0)), level(number(0))};
    } else if (operands_.size() == 3) {
      state_.stroke = {level(number(0)), level(number(1)), level(number(2))};
    } else if (operands_.size() == 4) {
      const double white = 1 - number(3);
      state_.stroke = {level((1 - number(0)) * white), level((1 - number(1)) * white),
                       level((1 - number(2)) * white)};
    }
  }
  void marked() {
    if (marks_.size() >= most_marked) {
      ++unseen_;
      return;
    }
    Mark mark = marks_.empty() ? Mark{} : marks_.back();
    if (operands_.size() == 2 && operands_[1].isDictionary()) {
      if (operands_[1].hasKey("/PLWR_Leader")) {
        mark.is_leader = true;
        mark.leader = text_of(operands_[1].getKey("/PLWR_Leader"));
      }
      if (operands_[1].hasKey("/PLWR_Label")) mark.label = text_of(operands_[1].getKey("/PLWR_Label"));
    }
    marks_.push_back(std::move(mark));
  }

  Object found(const char* kind) {
    if (operands_.empty() || !operands_.back().isName() || !resources_.isDictionary())
      return Object::newDictionary();
    Object all = resources_.getKey(kind);
    Object one = all.isDictionary() ? all.getKey(operands_.back().getName()) : Object::newNull();
    return one.isDictionary() || one.isStream() ? one : Object::newDictionary();
  }
  // An image fills the unit square.
  void image(Object keys) {
    const auto side = [](Object value) { return value.isNumber() ? value.getNumericValue() : 0; };
    for (Object one : {keys, keys.getKey("/SMask").isStream() ? keys.getKey("/SMask").getDict() : keys})
      if (side(one.getKey("/Width")) * side(one.getKey("/Height")) > most_image_pixels) throw TooMuch();
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
  void form() {
    Object one = found("/XObject");
    if (!one.isStream() || reading_.open.size() >= deepest) return;
    Object keys = one.getDict();
    if (keys.getKey("/Subtype").isNameAndEquals("/Image")) return image(keys);
    if (!keys.getKey("/Subtype").isNameAndEquals("/Form")) return;
    // One that lies in itself would have no end; readers leave it out there.
    if (std::find(reading_.open.begin(), reading_.open.end(), one.getObjGen()) !=
        reading_.open.end()) {
      ++reading_.cut;
      return;
    }
    Object own = keys.getKey("/Resources");
    State state = state_;
    state.matrix = product(matrix_of(keys.getKey("/Matrix")), state_.matrix);
    const FormKey key{one.getObjGen(), state.line, state.miter, reading_.open.size()};
    const bool leads = !marks_.empty() && marks_.back().is_leader;
    if (const auto known = known_.forms.find(key);
        known != known_.forms.end() && !leads && draw_known(known->second, state.matrix))
      return;
    const std::size_t commands = reading_.commands, strokes = page_.strokes.size();
    if (++reading_.opened > most_opened) throw TooMuch();
    check_size(one);
    const std::size_t cut = reading_.cut;
    const std::size_t others = page_.leaders.size() + page_.images.size() + page_.runs.size();
    Commands inside(page_, own.isDictionary() ? own : resources_, state,
                    marks_.empty() ? label_ : marks_.back().label, reading_, known_);
    reading_.open.push_back(one.getObjGen());
    one.parseAsContents(&inside);
    reading_.open.pop_back();
    if (leads || reading_.cut != cut || !own.isDictionary() || !one.isIndirect() ||
        known_.forms.contains(key) ||
        page_.leaders.size() + page_.images.size() + page_.runs.size() != others)
      return;
    const std::size_t drawn = page_.strokes.size() - strokes;
    if (known_.strokes + drawn > most_known_strokes) return;
    const auto begin = page_.strokes.begin() + static_cast<std::ptrdiff_t>(strokes);
    const bool near = std::all_of(begin, page_.strokes.end(), [](const FinishedStroke& s) {
      return std::abs(s.box.left()) < farthest / 10 && std::abs(s.box.right()) < farthest / 10 &&
             std::abs(s.box.top()) < farthest / 10 && std::abs(s.box.bottom()) < farthest / 10;
    });
    if (!near) return;
    known_.strokes += drawn;
    known_.forms.emplace(key, KnownForm{state.matrix,
                                        page_.x,
                                        page_.y + page_.height,
                                        reading_.commands - commands,
                                        {begin, page_.strokes.end()}});
  }
  // Draws a form that was read before as it comes out here; false where that can't be said.
  bool draw_known(const KnownForm& form, const Matrix& matrix) {
    const auto step = level_step(form.matrix, matrix);
    if (!step) return false;
    count(form.commands);
    const double k = std::sqrt(std::abs((*step)[0] * (*step)[3]));
    for (const FinishedStroke& stroke : form.strokes) {
      const auto moved = [&](double x_mm, double y_mm) {
        const PagePoint p =
            through(*step, form.x + x_mm / mm_per_point, form.top - y_mm / mm_per_point);
        const auto kept = [](double v) {
          return v > -farthest ? std::min(v, farthest) : -farthest;
        };
        return PagePoint{kept((p.x - page_.x) * mm_per_point),
                         kept((page_.y + page_.height - p.y) * mm_per_point)};
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

  PageCommands& page_;
  Object resources_;
  State state_;
  std::string label_;  // that all of it belongs to
  Reading& reading_;
  KnownForms& known_;
  std::vector<State> stack_;
  std::vector<Mark> marks_;
  std::size_t unseen_ = 0;  // marks too deep to be kept
  std::vector<Object> operands_;
  Matrix line_{1, 0, 0, 1, 0, 0};  // of text
  double leading_ = 0;
  std::vector<std::vector<PagePoint>> lines_;  // of a leader that is being drawn
  bool any_ = false;
  double left_ = 0, right_ = 0, top_ = 0, bottom_ = 0;
};

struct Corners {
  double left = 0, bottom = 0, right = 0, top = 0;
};
std::optional<Corners> corners(Object array) {
  if (!array.isRectangle()) return std::nullopt;
  const Object::Rectangle r = array.getArrayAsRectangle();
  return Corners{std::min(r.llx, r.urx), std::min(r.lly, r.ury), std::max(r.llx, r.urx),
                 std::max(r.lly, r.ury)};
}

}  // namespace

Findings each_page_commands(
    std::string_view bytes, const std::string& path,
    const std::function<Findings(PageCommands&&, std::size_t, std::size_t)>& each) {
  std::size_t index = 0;
  KnownForms known;
  try {
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile(path.c_str(), bytes.data(), bytes.size());
    const auto pages = QPDFPageDocumentHelper(pdf).getAllPages();
    if (pages.size() > most_pages)
      return {error("pdf-large", {path, 0, 0},
                    "the file has more than " + std::to_string(most_pages) + " pages",
                    "look at it in parts")};
    for (QPDFPageObjectHelper helper : pages) {
      PageCommands page;
      page.language = text_of(pdf.getRoot().getKey("/Lang"));
      const auto media = corners(helper.getMediaBox());
      if (!media || media->right - media->left <= 0 || media->top - media->bottom <= 0)
        return {error("pdf-unreadable", {path, static_cast<int>(index) + 1, 0},
                      "the page has no media box")};
      page.x = media->left;
      page.y = media->bottom;
      page.width = media->right - media->left;
      page.height = media->top - media->bottom;
      const auto box = [&](const char* key) -> std::optional<PageBox> {
        const auto c = corners(helper.getAttribute(key, false));
        if (!c) return std::nullopt;
        return PageBox{(c->left - page.x) * mm_per_point,
                       (page.y + page.height - c->top) * mm_per_point,
                       (c->right - c->left) * mm_per_point, (c->top - c->bottom) * mm_per_point};
      };
      page.trim = box("/TrimBox");
      page.bleed = box("/BleedBox");
      page.crop = box("/CropBox");
      if (Object unit = helper.getAttribute("/UserUnit", false);
          unit.isNumber() && unit.getNumericValue() > 0)
        page.unit = unit.getNumericValue();
      for (const Object& stream : helper.getPageContents()) check_size(stream);
      Reading reading;
      Commands reader(page, helper.getAttribute("/Resources", false), {}, {}, reading, known);
      helper.parseContents(&reader);
      if (Findings findings = each(std::move(page), index, pages.size()); !findings.empty())
        return findings;
      ++index;
    }
    return {};
  } catch (const TooMuch&) {
    return {error(
        "pdf-large", {path, static_cast<int>(index) + 1, 0},
        "the page has more commands or forms, or an image of more pixels, than can be looked at",
        "make the figure simpler")};
  } catch (const std::exception& fault) {
    return {error("pdf-unreadable", {path, 0, 0},
                  "the file is not a PDF that can be read: " + escaped(fault.what()))};
  }
}

}  // namespace platewright::read
