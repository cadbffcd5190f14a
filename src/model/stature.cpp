// Stature for age by the CDC growth charts of 2000 (public domain).
#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "base/number.hpp"
#include "platewright/true_size.hpp"

namespace platewright {
namespace {

struct Lms {
  double l = 0, m = 0, s = 0;  // m in cm
};

constexpr int youngest = 2;
constexpr int oldest = 20;
using Rows = std::array<Lms, oldest - youngest + 1>;

// CDC growth charts, data table of stature-for-age (Vital and Health Statistics
// series 11, number 246). The table has a row for the middle of each month; a
// birthday is the mean of the rows before and after it. 2 and 20 years have
// rows of their own.
constexpr Rows girls = {{
    {1.072448960, 84.975555, 0.040791394},    // 2
    {0.560768625, 93.923590, 0.041994511},    // 3
    {0.238432221, 100.750989, 0.043208898},   // 4
    {-0.047540564, 107.663644, 0.044241403},  // 5
    {-0.215621769, 114.714065, 0.044939654},  // 6
    {-0.213490454, 121.491352, 0.045441626},  // 7
    {-0.085933861, 127.589241, 0.045942852},  // 8
    {0.077392542, 132.919869, 0.046831054},   // 9
    {0.273317003, 137.990145, 0.048611757},   // 10
    {0.718675962, 143.977974, 0.050492536},   // 11
    {1.288525376, 151.190105, 0.048771909},   // 12
    {1.256136457, 157.154063, 0.044037311},   // 13
    {0.964204974, 160.388716, 0.041093919},   // 14
    {0.895022602, 161.857672, 0.040104204},   // 15
    {0.938687181, 162.548849, 0.039826646},   // 16
    {0.997221047, 162.912583, 0.039734526},   // 17
    {1.045813506, 163.123977, 0.039688812},   // 18
    {1.082037492, 163.254704, 0.039658410},   // 19
    {1.108046193, 163.338251, 0.039636316},   // 20
}};
constexpr Rows boys = {{
    {0.941523967, 86.452201, 0.040321528},   // 2
    {-0.347386354, 94.959980, 0.040594216},  // 3
    {0.792897571, 102.223890, 0.041297740},  // 4
    {1.260744342, 108.902395, 0.042541057},  // 5
    {1.150119533, 115.392359, 0.043635883},  // 6
    {0.769745294, 121.768874, 0.044376467},  // 7
    {0.462929130, 127.877873, 0.045091360},  // 8
    {0.413135358, 133.511352, 0.046163801},  // 9
    {0.502608366, 138.618841, 0.047550651},  // 10
    {0.491817864, 143.520545, 0.048887599},  // 11
    {0.418848077, 149.050259, 0.049913236},  // 12
    {0.786809410, 156.087047, 0.050341933},  // 13
    {1.635826509, 163.838447, 0.049045872},  // 14
    {2.195515029, 169.939895, 0.046024294},  // 15
    {2.125774042, 173.505721, 0.043181836},  // 16
    {1.741262679, 175.290373, 0.041457689},  // 17
    {1.410497926, 176.159890, 0.040663237},  // 18
    {1.233785636, 176.604491, 0.040395753},  // 19
    {1.167279219, 176.849232, 0.040369574},  // 20
}};

// Linear between birthdays.
Lms row_at(const Rows& rows, double years) {
  const double at = years - youngest;
  const auto below = std::min(static_cast<std::size_t>(at), rows.size() - 2);
  const double t = at - static_cast<double>(below);
  const Lms &a = rows[below], &b = rows[below + 1];
  return {a.l + t * (b.l - a.l), a.m + t * (b.m - a.m), a.s + t * (b.s - a.s)};
}

double polynomial(std::span<const double> coefficients, double x) {
  double sum = 0;
  for (std::size_t i = coefficients.size(); i-- > 0;) sum = sum * x + coefficients[i];
  return sum;
}

}  // namespace

double lms_value(double l, double m, double s, double z) {
  if (std::abs(l) < 1e-9) return m * std::exp(s * z);
  return m * std::pow(1 + l * s * z, 1 / l);
}

// Algorithm AS 241, PPND16: M. J. Wichura, "The percentage points of the normal
// distribution", Applied Statistics 37 (1988) 477-484.
double normal_quantile(double p) {
  static constexpr double a[] = {3.3871328727963666080e0,  1.3314166789178437745e+2,
                                 1.9715909503065514427e+3, 1.3731693765509461125e+4,
                                 4.5921953931549871457e+4, 6.7265770927008700853e+4,
                                 3.3430575583588128105e+4, 2.5090809287301226727e+3};
  static constexpr double b[] = {1.0,
                                 4.2313330701600911252e+1,
                                 6.8718700749205790830e+2,
                                 5.3941960214247511077e+3,
                                 2.1213794301586595867e+4,
                                 3.9307895800092710610e+4,
                                 2.8729085735721942674e+4,
                                 5.2264952788528545610e+3};
  static constexpr double c[] = {1.42343711074968357734e0,  4.63033784615654529590e0,
                                 5.76949722146069140550e0,  3.64784832476320460504e0,
                                 1.27045825245236838258e0,  2.41780725177450611770e-1,
                                 2.27238449892691845833e-2, 7.74545014278341407640e-4};
  static constexpr double d[] = {1.0,
                                 2.05319162663775882187e0,
                                 1.67638483018380384940e0,
                                 6.89767334985100004550e-1,
                                 1.48103976427480074590e-1,
                                 1.51986665636164571966e-2,
                                 5.47593808499534494600e-4,
                                 1.05075007164441684324e-9};
  static constexpr double e[] = {6.65790464350110377720e0,  5.46378491116411436990e0,
                                 1.78482653991729133580e0,  2.96560571828504891230e-1,
                                 2.65321895265761230930e-2, 1.24266094738807843860e-3,
                                 2.71155556874348757815e-5, 2.01033439929228813265e-7};
  static constexpr double f[] = {1.0,
                                 5.99832206555887937690e-1,
                                 1.36929880922735805310e-1,
                                 1.48753612908506148525e-2,
                                 7.86869131145613259100e-4,
                                 1.84631831751005468180e-5,
                                 1.42151175831644588870e-7,
                                 2.04426310338993978564e-15};
  const double q = p - 0.5;
  if (std::abs(q) <= 0.425) {
    const double r = 0.180625 - q * q;
    return q * polynomial(a, r) / polynomial(b, r);
  }
  double r = std::sqrt(-std::log(q < 0 ? p : 1 - p));
  double z = 0;
  if (r <= 5) {
    r -= 1.6;
    z = polynomial(c, r) / polynomial(d, r);
  } else {
    r -= 5;
    z = polynomial(e, r) / polynomial(f, r);
  }
  return q < 0 ? -z : z;
}

Result<Length> stature(double years, std::optional<Sex> sex, double percentile) {
  Findings findings;
  if (!(years >= youngest && years <= oldest))
    findings.push_back(error("age-range", {"--age", 0, 0},
                             "the table of statures has ages 2 to 20, not " +
                                 (std::isfinite(years) ? format_number(years, 2) : "that"),
                             "give the length itself with --stature"));
  if (!(percentile >= 0.1 && percentile <= 99.9))
    findings.push_back(
        error("percentile-range", {"--percentile", 0, 0},
              "a percentile lies between 0.1 and 99.9, not at " +
                  (std::isfinite(percentile) ? format_number(percentile, 2) : "that"),
              "50 is the median"));
  if (!findings.empty()) return findings;
  const double z = normal_quantile(percentile / 100);
  const auto of = [&](const Rows& rows) {
    const Lms row = row_at(rows, years);
    return lms_value(row.l, row.m, row.s, z);
  };
  if (sex) return Length::cm(of(*sex == Sex::girl ? girls : boys));
  return Length::cm((of(girls) + of(boys)) / 2);
}

}  // namespace platewright
