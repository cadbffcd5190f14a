// x[label, option] = 1 when the label takes that column, slot, variant and target.
//   each label once; for an option and another label, the options of that label
//   which it rules out: x + sum <= 1 (stronger than pair by pair)
//   balance: t >= L - R, t >= R - L over n labels in columns
// Neighbours: for each column a unit of flow runs from its top to its foot
// through the chosen options in order; the arc between two of them is the pair.
#include "integer_program.hpp"

#include "glpk_model.hpp"
#include "slot_model.hpp"

namespace platewright::oracle {
namespace {

constexpr int most_nodes = 1500;  // of the branch and cut tree: a limit that is the same on every machine

void stop_late(glp_tree* tree, void*) {
  int active = 0, open = 0, total = 0;
  glp_ios_tree_size(tree, &active, &open, &total);
  if (total > most_nodes) glp_ios_terminate(tree);
}

}  // namespace

IntegerAnswer integer_program(const place::Problem& problem, bool successors) {
  IntegerAnswer answer;
  const auto all = options(problem);
  const std::size_t n = all.size();
  for (const auto& of_label : all)
    if (of_label.empty()) {
      answer.kind = IntegerAnswer::Kind::infeasible;
      return answer;
    }
  GlpkModel model;
  std::vector<std::vector<int>> x(n);
  for (std::size_t i = 0; i < n; ++i) {
    Terms once;
    for (const Option& o : all[i]) {
      x[i].push_back(model.binary(o.own_cost));
      once.emplace_back(x[i].back(), 1.0);
      ++answer.binaries;
    }
    model.equal(once, 1);
  }
  std::vector<std::vector<std::vector<std::vector<char>>>> fits(n);  // [i][j][a][b], i < j
  for (std::size_t i = 0; i < n; ++i) {
    fits[i].resize(n);
    for (std::size_t j = i + 1; j < n; ++j)
      for (const Option& a : all[i]) {
        auto& row = fits[i][j].emplace_back();
        for (const Option& b : all[j]) row.push_back(compatible(problem, a, b));
      }
  }
  const auto fit = [&](std::size_t i, std::size_t a, std::size_t j, std::size_t b) {
    return i < j ? fits[i][j][a][b] : fits[j][i][b][a];
  };
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j) {
      if (i == j) continue;
      for (std::size_t a = 0; a < all[i].size(); ++a) {
        Terms ruled_out{{x[i][a], 1.0}};
        for (std::size_t b = 0; b < all[j].size(); ++b)
          if (!fit(i, a, j, b)) ruled_out.emplace_back(x[j][b], 1.0);
        if (ruled_out.size() > 1) model.at_most(ruled_out, 1);
      }
    }
  // No two boxes over one place of a column: at each box's top, all that cover it
  // (a gap further down) exclude each other. Stronger than the rows above.
  for (std::size_t line = 0; line < problem.columns.size(); ++line)
    for (std::size_t i = 0; i < n; ++i)
      for (const Option& o : all[i]) {
        if (o.line != line) continue;
        const double at = start_of(o);
        Terms over;
        for (std::size_t j = 0; j < n; ++j)
          for (std::size_t b = 0; b < all[j].size(); ++b)
            if (all[j][b].line == line && start_of(all[j][b]) <= at + tolerance &&
                end_of(all[j][b]) + problem.rules.label_gap > at + 2 * tolerance)
              over.emplace_back(x[j][b], 1.0);
        if (over.size() > 1) model.at_most(over, 1);
      }
  if (problem.weights.balance > 0) {
    const int t = model.at_least_zero(problem.weights.balance / static_cast<double>(n));
    Terms left_more{{t, 1.0}}, right_more{{t, 1.0}};
    for (std::size_t i = 0; i < n; ++i)
      for (std::size_t a = 0; a < all[i].size(); ++a) {
        const double sign = all[i][a].placement.side == Side::left ? 1.0 : -1.0;
        left_more.emplace_back(x[i][a], -sign);
        right_more.emplace_back(x[i][a], sign);
      }
    model.at_least(left_more, 0);
    model.at_least(right_more, 0);
  }
  if (successors) {
    for (std::size_t line = 0; line < problem.columns.size(); ++line) {
      std::vector<std::vector<Terms>> in(n), out(n);
      Terms source{{model.share(0), 1.0}};  // an empty column
      for (std::size_t i = 0; i < n; ++i) {
        in[i].resize(all[i].size());
        out[i].resize(all[i].size());
        for (std::size_t a = 0; a < all[i].size(); ++a) {
          if (all[i][a].line != line) continue;
          const int first = model.share(0), last = model.share(0);
          source.emplace_back(first, 1.0);
          in[i][a].emplace_back(first, 1.0);
          out[i][a].emplace_back(last, 1.0);
        }
      }
      for (std::size_t i = 0; i < n; ++i)
        for (std::size_t a = 0; a < all[i].size(); ++a)
          for (std::size_t j = 0; j < n && all[i][a].line == line; ++j)
            for (std::size_t b = 0; i != j && b < all[j].size(); ++b) {
              if (all[j][b].line != line || start_of(all[j][b]) < end_of(all[i][a]) - tolerance ||
                  !fit(i, a, j, b))
                continue;
              const int arc = model.share(pair_cost(problem, i, all[i][a], j, all[j][b]));
              out[i][a].emplace_back(arc, 1.0);
              in[j][b].emplace_back(arc, 1.0);
            }
      model.equal(source, 1);
      for (std::size_t i = 0; i < n; ++i)
        for (std::size_t a = 0; a < all[i].size(); ++a) {
          if (all[i][a].line != line) continue;
          in[i][a].emplace_back(x[i][a], -1.0);
          out[i][a].emplace_back(x[i][a], -1.0);
          model.equal(in[i][a], 0);
          model.equal(out[i][a], 0);
        }
    }
  }
  glp_smcp lp;
  glp_init_smcp(&lp);
  lp.msg_lev = GLP_MSG_OFF;
  lp.presolve = GLP_ON;
  const int solved = glp_simplex(model.get(), &lp);
  if (solved == GLP_ENOPFS || (solved == 0 && glp_get_status(model.get()) == GLP_NOFEAS)) {
    answer.kind = IntegerAnswer::Kind::infeasible;
    return answer;
  }
  if (solved != 0 || glp_get_status(model.get()) != GLP_OPT) return answer;
  glp_iocp mip;
  glp_init_iocp(&mip);
  mip.msg_lev = GLP_MSG_OFF;
  mip.cb_func = stop_late;
  mip.br_tech = GLP_BR_DTH;
  mip.clq_cuts = GLP_ON;
  const int searched = glp_intopt(model.get(), &mip);
  const int status = glp_mip_status(model.get());
  if (searched == 0 && status == GLP_OPT) {
    answer.kind = IntegerAnswer::Kind::optimal;
    answer.cost = glp_mip_obj_val(model.get());
  } else if (searched == 0 && status == GLP_NOFEAS) {
    answer.kind = IntegerAnswer::Kind::infeasible;
  }
  return answer;
}

}  // namespace platewright::oracle
