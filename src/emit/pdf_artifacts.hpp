// What carries no structure tag is marked as an artifact, so that a screen
// reader passes leaders, marks and rulings by (ISO 32000-1, 14.8.2.2); labels
// and leaders are marked with the names of their anchors, so that a finished
// page can be looked over (14.6).
#pragma once

#include <qpdf/QPDFObjectHandle.hh>
#include <string>
#include <vector>

namespace platewright::emit {

// Names of our own in finished PDFs: second-class names (ISO 32000-1, Annex E)
// with a prefix that is not registered.
//   /P <</MCID 3 /PLWR_Label (aorta)>> BDC ... EMC       a label
//   /Artifact <</PLWR_Leader (aorta)>> BDC ... EMC       a leader
inline constexpr const char* label_key = "/PLWR_Label";
inline constexpr const char* leader_key = "/PLWR_Leader";

// Strokes of leader `n` of a page are drawn with this miter limit plus n.
inline constexpr double first_leader_miter = 100;

// Of one page, in drawing order: the anchor of each tagged content that is a
// label, else nothing; the anchor of each leader.
struct PageMarks {
  std::vector<std::string> tagged;
  std::vector<std::string> leaders;
};

// A filter for one page's content stream.
class ArtifactFilter : public QPDFObjectHandle::TokenFilter {
 public:
  explicit ArtifactFilter(PageMarks names) : names_(std::move(names)) {}
  void handleToken(const QPDFTokenizer::Token& token) override;
  void handleEOF() override;

 private:
  void flush();
  void open_structure(int content);
  bool is_leader_miter();

  PageMarks names_;
  std::vector<QPDFTokenizer::Token> held_;  // operands that wait for their operator
  std::vector<bool> marks_;                 // open marked content: is it a structure's?
  std::string leader_;                      // whose strokes come next, as a PDF's string
  bool in_leader_ = false;
  bool begun_ = false;
};

}  // namespace platewright::emit
