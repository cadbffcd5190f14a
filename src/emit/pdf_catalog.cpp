#include "emit/pdf_catalog.hpp"

#include <chrono>
#include <memory>
#include <optional>
#include <qpdf/Buffer.hh>
#include <qpdf/QPDFWriter.hh>

#include "base/number.hpp"

namespace platewright::emit {
namespace {

using Object = QPDFObjectHandle;

Object name(const char* text) { return Object::newName(text); }
Object unicode(const std::string& utf8) { return Object::newUnicodeString(utf8); }

std::string pdf_date(long long seconds) {
  using namespace std::chrono;
  const sys_seconds time{std::chrono::seconds(seconds)};
  const auto day = floor<days>(time);
  const year_month_day date(day);
  const hh_mm_ss clock(time - day);
  const auto digits = [](long long value, std::size_t count) {
    std::string result = std::to_string(value);
    return result.size() < count ? std::string(count - result.size(), '0') + result : result;
  };
  return "D:" + digits(static_cast<int>(date.year()), 4) +
         digits(static_cast<unsigned>(date.month()), 2) +
         digits(static_cast<unsigned>(date.day()), 2) + digits(clock.hours().count(), 2) +
         digits(clock.minutes().count(), 2) + digits(clock.seconds().count(), 2) + "Z";
}

}  // namespace

void set_outline(QPDF& pdf, const std::vector<OutlineEntry>& entries,
                 const std::vector<Object>& pages) {
  if (entries.empty()) return;
  struct Open {
    int level;
    Object object;
    std::optional<Object> last;
    long long children = 0;
  };
  std::vector<Open> open;
  open.push_back({-1, pdf.makeIndirectObject(Object::newDictionary()), std::nullopt});
  open.front().object.replaceKey("/Type", name("/Outlines"));
  const auto close = [&] {
    Open done = std::move(open.back());
    open.pop_back();
    if (done.children == 0) return;
    done.object.replaceKey("/Last", *done.last);
    done.object.replaceKey(
        "/Count", Object::newInteger(done.level < 0 ? done.children : -done.children));
  };
  for (const OutlineEntry& entry : entries) {
    while (open.size() > 1 && open.back().level >= entry.level) close();
    Open& parent = open.back();
    Object object = pdf.makeIndirectObject(Object::newDictionary());
    object.replaceKey("/Title", unicode(entry.title));
    object.replaceKey("/Parent", parent.object);
    object.replaceKey("/Dest", Object::newArray({pages[entry.page], name("/Fit")}));
    if (parent.last) {
      object.replaceKey("/Prev", *parent.last);
      parent.last->replaceKey("/Next", object);
    } else {
      parent.object.replaceKey("/First", object);
    }
    parent.last = object;
    ++parent.children;
    open.push_back({entry.level, object, std::nullopt});
  }
  const Object outline = open.front().object;
  while (!open.empty()) close();
  pdf.getRoot().replaceKey("/Outlines", outline);
}

// ISO 32000-1, 12.4.2. A label of digits counts on; any other is a prefix alone.
void set_page_labels(QPDF& pdf, const std::vector<std::string>& labels) {
  Object numbers = Object::newArray();
  std::string prefix;
  std::optional<int> expected;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const std::string label = labels[i].empty() ? std::to_string(i + 1) : labels[i];
    const std::size_t digits = label.find_last_not_of("0123456789") + 1;  // 0 for none but digits
    const std::string before = label.substr(0, digits);
    std::optional<int> number = parse_integer(label.substr(digits));
    if (number && (*number < 1 || std::to_string(*number) != label.substr(digits))) number.reset();
    if (number && number == expected && before == prefix) {
      ++*expected;
      continue;
    }
    Object entry = Object::newDictionary();
    if (number) {
      entry.replaceKey("/S", name("/D"));
      entry.replaceKey("/St", Object::newInteger(*number));
      if (!before.empty()) entry.replaceKey("/P", unicode(before));
    } else {
      entry.replaceKey("/P", unicode(label));
    }
    numbers.appendItem(Object::newInteger(static_cast<long long>(i)));
    numbers.appendItem(entry);
    prefix = before;
    expected = number ? std::optional(*number + 1) : std::nullopt;
  }
  Object tree = Object::newDictionary();
  tree.replaceKey("/Nums", numbers);
  pdf.getRoot().replaceKey("/PageLabels", tree);
}

void set_information(QPDF& pdf, const compose::Document& document, const EmitContext& context) {
  Object information = Object::newDictionary();
  if (!document.title.empty()) information.replaceKey("/Title", unicode(document.title));
  if (!document.author.empty()) information.replaceKey("/Author", unicode(document.author));
  information.replaceKey("/Producer", unicode(context.producer));
  constexpr long long year_10000 = 253'402'300'800;
  if (context.source_date >= 0 && context.source_date < year_10000) {
    const Object date = Object::newString(pdf_date(context.source_date));
    information.replaceKey("/CreationDate", date);
    information.replaceKey("/ModDate", date);
  }
  pdf.getTrailer().replaceKey("/Info", pdf.makeIndirectObject(information));

  Object preferences = Object::newDictionary();
  if (!document.title.empty()) preferences.replaceKey("/DisplayDocTitle", Object::newBool(true));
  if (document.print_scaling_off) preferences.replaceKey("/PrintScaling", name("/None"));
  if (document.direction == text::Direction::right_to_left)
    preferences.replaceKey("/Direction", name("/R2L"));
  pdf.getRoot().replaceKey("/ViewerPreferences", preferences);
  if (!document.language.empty()) pdf.getRoot().replaceKey("/Lang", unicode(document.language));
}

std::string written(QPDF& pdf) {
  QPDFWriter writer(pdf);
  writer.setOutputMemory();
  writer.setDeterministicID(true);
  writer.setObjectStreamMode(qpdf_o_generate);
  writer.setMinimumPDFVersion("1.7");
  writer.write();
  const std::shared_ptr<Buffer> bytes = writer.getBufferSharedPointer();
  return std::string(reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize());
}

}  // namespace platewright::emit
