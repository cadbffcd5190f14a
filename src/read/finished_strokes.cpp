// Strokes and boxes of a PDF by qpdf: the commands of each page and of the
// forms it draws (ISO 32000-1, 8.4 and 8.5), as wide as they come out.
#include <algorithm>
#include <array>
#include <cmath>
#include <exception>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>

#include "base/number.hpp"
#include "read/finished.hpp"

namespace platewright::read {
namespace {

using Object = QPDFObjectHandle;

constexpr double mm = 25.4 / 72;           // in one point
constexpr std::size_t most_pages = 2000;
constexpr std::size_t most_commands = 5'000'000;  // on one page, with its forms
constexpr int deepest = 16;                // forms in forms

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

// Reads the commands of a page or a form and notes what is stroked.
class Strokes : public Object::ParserCallbacks {
 public:
  Strokes(PageStrokes& page, Object resources, const Matrix& base, double line, int depth,
          std::size_t& commands)
      : page_(page), resources_(resources), state_{base, line}, depth_(depth), commands_(commands) {}

  void handleObject(Object object, size_t, size_t) override {
    if (!object.isOperator()) {
      if (++commands_ > most_commands) throw TooMuch();
      if (operands_.size() < 64) operands_.push_back(object);
      return;
    }
    command(object.getOperatorValue());
    operands_.clear();
  }
  void handleEOF() override {}

 private:
  struct State {
    Matrix matrix{1, 0, 0, 1, 0, 0};
    double line = 1;
  };

  double number(std::size_t i) {
    return i < operands_.size() && operands_[i].isNumber() ? operands_[i].getNumericValue() : 0;
  }
  void point(double x, double y) {
    const Matrix& m = state_.matrix;
    const double px = m[0] * x + m[2] * y + m[4], py = m[1] * x + m[3] * y + m[5];
    if (!any_) left_ = right_ = px, bottom_ = top_ = py;
    left_ = std::min(left_, px), right_ = std::max(right_, px);
    bottom_ = std::min(bottom_, py), top_ = std::max(top_, py);
    any_ = true;
  }
  void stroked() {
    if (!any_) return;
    const Matrix& m = state_.matrix;
    const double scale = std::sqrt(std::abs(m[0] * m[3] - m[1] * m[2]));
    page_.strokes.push_back({state_.line * scale,
                             {(left_ - page_.x) * mm, (page_.y + page_.height - top_) * mm,
                              (right_ - left_) * mm, (top_ - bottom_) * mm}});
  }

  void command(const std::string& name) {
    if (name == "q") {
      if (stack_.size() < 1000) stack_.push_back(state_);
    } else if (name == "Q") {
      if (!stack_.empty()) state_ = stack_.back(), stack_.pop_back();
    } else if (name == "cm") {
      state_.matrix = product({number(0), number(1), number(2), number(3), number(4), number(5)},
                              state_.matrix);
    } else if (name == "w") {
      state_.line = number(0);
    } else if (name == "gs") {
      if (const Object width = found("/ExtGState").getKey("/LW"); width.isInitialized())
        if (Object w = width; w.isNumber()) state_.line = w.getNumericValue();
    } else if (name == "m" || name == "l") {
      point(number(0), number(1));
    } else if (name == "c" || name == "v" || name == "y") {
      for (std::size_t i = 0; i + 1 < operands_.size(); i += 2) point(number(i), number(i + 1));
    } else if (name == "re") {
      point(number(0), number(1));
      point(number(0) + number(2), number(1) + number(3));
    } else if (name == "S" || name == "s" || name == "B" || name == "B*" || name == "b" ||
               name == "b*") {
      stroked();
      any_ = false;
    } else if (name == "f" || name == "F" || name == "f*" || name == "n") {
      any_ = false;
    } else if (name == "Do") {
      form();
    }
  }

  Object found(const char* kind) {
    if (operands_.empty() || !operands_.back().isName() || !resources_.isDictionary())
      return Object::newDictionary();
    Object all = resources_.getKey(kind);
    Object one = all.isDictionary() ? all.getKey(operands_.back().getName()) : Object::newNull();
    return one.isDictionary() || one.isStream() ? one : Object::newDictionary();
  }
  void form() {
    Object one = found("/XObject");
    if (!one.isStream() || depth_ >= deepest) return;
    Object keys = one.getDict();
    if (!keys.getKey("/Subtype").isNameAndEquals("/Form")) return;
    Object own = keys.getKey("/Resources");
    Strokes inside(page_, own.isDictionary() ? own : resources_,
                   product(matrix_of(keys.getKey("/Matrix")), state_.matrix), state_.line,
                   depth_ + 1, commands_);
    one.parseAsContents(&inside);
  }

  PageStrokes& page_;
  Object resources_;
  State state_;
  int depth_;
  std::size_t& commands_;
  std::vector<State> stack_;
  std::vector<Object> operands_;
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

Result<std::vector<PageStrokes>> pdf_strokes(std::string_view bytes, const std::string& path) {
  try {
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile(path.c_str(), bytes.data(), bytes.size());
    std::vector<PageStrokes> pages;
    for (auto& helper : QPDFPageDocumentHelper(pdf).getAllPages()) {
      if (pages.size() >= most_pages)
        return error("pdf-large", {path, 0, 0},
                     "the file has more than " + std::to_string(most_pages) + " pages",
                     "look at it in parts");
      PageStrokes page;
      const auto media = corners(helper.getMediaBox());
      if (!media || media->right - media->left <= 0 || media->top - media->bottom <= 0)
        return error("pdf-unreadable", {path, static_cast<int>(pages.size()) + 1, 0},
                     "the page has no media box");
      page.x = media->left;
      page.y = media->bottom;
      page.width = media->right - media->left;
      page.height = media->top - media->bottom;
      const auto box = [&](const char* key) -> std::optional<PageBox> {
        const auto c = corners(helper.getAttribute(key, false));
        if (!c) return std::nullopt;
        return PageBox{(c->left - page.x) * mm, (page.y + page.height - c->top) * mm,
                       (c->right - c->left) * mm, (c->top - c->bottom) * mm};
      };
      page.trim = box("/TrimBox");
      page.bleed = box("/BleedBox");
      std::size_t commands = 0;
      Strokes reader(page, helper.getAttribute("/Resources", false), {1, 0, 0, 1, 0, 0}, 1, 0,
                     commands);
      helper.parseContents(&reader);
      pages.push_back(std::move(page));
    }
    return pages;
  } catch (const TooMuch&) {
    return error("pdf-large", {path, 0, 0}, "a page has more commands than can be looked at",
                 "make the figure simpler");
  } catch (const std::exception& fault) {
    return error("pdf-unreadable", {path, 0, 0},
                 "the file is not a PDF that can be read: " + std::string(fault.what()));
  }
}

}  // namespace platewright::read
