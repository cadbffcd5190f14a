// Prices by the subgradient method, on bounds made up for the test.
#include "place/subgradient.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace platewright::place {
namespace {

// One label, met once too seldom whatever its price: the bound rises to 10 and then by rounding
// alone, while the price goes on rising.
struct Plateau {
  double bound(const RoutePrices& prices) {
    asked.push_back(prices.label[0]);
    return std::min(prices.label[0], 10.0) + 1e-14 * prices.label[0];
  }
  void meets(std::vector<int>& times, int& lean) const {
    times.assign(1, 0);
    lean = 0;
  }
  std::vector<double> asked;
};

TEST(Subgradient, Of_prices_that_raise_the_bound_by_rounding_alone_the_first_are_kept) {
  Plateau routes;
  RoutePrices prices;
  prices.label = {1};
  const double best = raise(routes, prices, {.target = 12, .rounds = 20, .patience = 30});
  EXPECT_NEAR(best, 10, 1e-9);
  const auto first = std::find_if(routes.asked.begin(), routes.asked.end(),
                                  [](double price) { return price >= 10; });
  ASSERT_NE(first, routes.asked.end());
  EXPECT_GT(routes.asked.back(), *first + 1);  // it was asked for higher ones, too
  EXPECT_EQ(prices.label[0], *first);
}

// Two labels, of which routes meet the one of the higher price twice and the other not at all.
struct Even {
  double bound(const RoutePrices& prices) {
    dearer = prices.label[0] > prices.label[1] ? 0 : 1;
    return 20 - std::abs(prices.label[0] - prices.label[1]);
  }
  void meets(std::vector<int>& times, int& lean) const {
    times = {dearer == 0 ? 2 : 0, dearer == 0 ? 0 : 2};
    lean = 0;
  }
  int dearer = 0;
};

TEST(Subgradient, Comes_near_the_highest_bound) {
  for (const double apart : {1.0, 7.0, 100.0}) {
    Even routes;
    RoutePrices prices;
    prices.label = {apart, 0};
    EXPECT_GT(raise(routes, prices, {.target = 20, .rounds = 60}), 19.5) << apart;
    EXPECT_LT(std::abs(prices.label[0] - prices.label[1]), 0.5) << apart;
  }
}

}  // namespace
}  // namespace platewright::place
