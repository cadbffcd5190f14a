#include "read/pdf_forms.hpp"

#include <qpdf/Pipeline.hh>

namespace platewright::read {
namespace {

constexpr std::size_t most_unpacked = std::size_t{64} << 20;  // bytes of one stream of commands

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

}  // namespace

void check_size(QPDFObjectHandle stream) {
  if (!stream.isStream()) return;
  Counter counter;
  stream.pipeStreamData(&counter, 0, qpdf_dl_generalized, true, false);
  if (counter.over()) throw TooMuch();  // qpdf only warns
}

}  // namespace platewright::read
