// What carries no structure tag is marked as an artifact, so that a screen
// reader passes leaders, marks and rulings by (ISO 32000-1, 14.8.2.2).
#pragma once

#include <qpdf/QPDFObjectHandle.hh>
#include <vector>

namespace platewright::emit {

// A filter for one page's content stream.
class ArtifactFilter : public QPDFObjectHandle::TokenFilter {
 public:
  void handleToken(const QPDFTokenizer::Token& token) override;
  void handleEOF() override;

 private:
  void flush();

  std::vector<QPDFTokenizer::Token> held_;  // operands that wait for their operator
  std::vector<bool> marks_;                 // open marked content: is it a structure's?
  bool begun_ = false;
};

}  // namespace platewright::emit
