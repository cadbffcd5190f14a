#include "describe.hpp"

#include <iomanip>
#include <sstream>

namespace platewright::oracle {

std::string describe(const place::Problem& p, const std::vector<place::Placement>& placements) {
  std::ostringstream out;
  out.imbue(std::locale::classic());
  out << std::setprecision(10) << "slot " << p.slot << " stub " << p.stub << " weights length "
      << p.weights.length << " slope " << p.weights.slope << " steep " << p.weights.steep
      << " from " << p.weights.steep_from << " gap " << p.weights.gap << " side "
      << p.weights.wrong_side << " group " << p.weights.group_break << " detail "
      << p.weights.detail << " balance " << p.weights.balance << " unit " << p.weights.unit << '\n';
  for (const place::Column& c : p.columns)
    out << "column side " << static_cast<int>(c.side) << " x " << c.edge << " y " << c.top << ".."
        << c.bottom << " width " << c.width << '\n';
  for (const place::Row& r : p.rows)
    out << "row y " << r.edge << " x " << r.left << ".." << r.right << " height " << r.height << '\n';
  for (const PageBox& o : p.obstacles)
    out << "obstacle " << o.x << ' ' << o.y << ' ' << o.w << 'x' << o.h << '\n';
  if (!p.detail.values.empty()) out << "with detail\n";
  for (std::size_t i = 0; i < p.labels.size(); ++i) {
    const place::Label& l = p.labels[i];
    out << l.anchor << (l.preferred < 0 ? " left" : l.preferred > 0 ? " right" : "");
    if (!l.group.empty()) out << " in " << l.group;
    for (const place::Variant& v : l.variants)
      out << " [" << v.width << 'x' << v.height << " port " << v.port << " +" << v.penalty << ']';
    for (const place::Target& t : l.targets) {
      out << " ->";
      for (const PagePoint& q : t.points) out << " (" << q.x << ',' << q.y << ')';
      out << " +" << t.penalty;
    }
    if (i < placements.size()) {
      const place::Placement& q = placements[i];
      out << "  at line " << q.column << (q.side == Side::top ? " (row)" : "") << " port " << q.port.x
          << ',' << q.port.y << " variant " << q.variant << " target " << q.target;
    }
    out << '\n';
  }
  return out.str();
}

}  // namespace platewright::oracle
