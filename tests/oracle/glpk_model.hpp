// A GLPK model that frees itself, and the few calls the oracles need.
// GLPK 5 reference manual, sections 2 and 5.
#pragma once

#include <glpk.h>

#include <memory>
#include <utility>
#include <vector>

namespace platewright::oracle {

using Terms = std::vector<std::pair<int, double>>;  // column number, coefficient

class GlpkModel {
 public:
  GlpkModel() : problem_(glp_create_prob(), glp_delete_prob) {
    glp_term_out(GLP_OFF);
    glp_set_obj_dir(problem_.get(), GLP_MIN);
  }
  int binary(double cost) {
    const int c = glp_add_cols(problem_.get(), 1);
    glp_set_col_kind(problem_.get(), c, GLP_BV);
    glp_set_obj_coef(problem_.get(), c, cost);
    return c;
  }
  int share(double cost) {  // in [0, 1]
    const int c = glp_add_cols(problem_.get(), 1);
    glp_set_col_bnds(problem_.get(), c, GLP_DB, 0, 1);
    glp_set_obj_coef(problem_.get(), c, cost);
    return c;
  }
  int at_least_zero(double cost) {
    const int c = glp_add_cols(problem_.get(), 1);
    glp_set_col_bnds(problem_.get(), c, GLP_LO, 0, 0);
    glp_set_obj_coef(problem_.get(), c, cost);
    return c;
  }
  void equal(const Terms& terms, double value) { row(terms, GLP_FX, value, value); }
  void at_most(const Terms& terms, double value) { row(terms, GLP_UP, 0, value); }
  void at_least(const Terms& terms, double value) { row(terms, GLP_LO, value, 0); }
  glp_prob* get() const { return problem_.get(); }

 private:
  void row(const Terms& terms, int kind, double low, double high) {
    const int r = glp_add_rows(problem_.get(), 1);
    glp_set_row_bnds(problem_.get(), r, kind, low, high);
    std::vector<int> index{0};
    std::vector<double> value{0};
    for (const auto& [column, coefficient] : terms) {
      index.push_back(column);
      value.push_back(coefficient);
    }
    glp_set_mat_row(problem_.get(), r, static_cast<int>(terms.size()), index.data(), value.data());
  }
  std::unique_ptr<glp_prob, decltype(&glp_delete_prob)> problem_;
};

}  // namespace platewright::oracle
