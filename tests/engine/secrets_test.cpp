// A figure cannot read a file, fetch an address or smuggle either into a sheet.
#include <arpa/inet.h>
#include <fcntl.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>

#include "engine/outcome.hpp"
#include "support/words.hpp"

namespace engine_test {
namespace {

// A port of this machine that notices when anybody calls.
class Listener {
 public:
  Listener() : socket_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    socklen_t size = sizeof address;
    if (socket_ < 0 || ::bind(socket_, reinterpret_cast<sockaddr*>(&address), size) != 0 ||
        ::listen(socket_, 8) != 0 ||
        ::getsockname(socket_, reinterpret_cast<sockaddr*>(&address), &size) != 0)
      ADD_FAILURE() << "no port to listen on";
    port_ = ntohs(address.sin_port);
  }
  ~Listener() { ::close(socket_); }
  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;
  std::string address() const { return "http://127.0.0.1:" + std::to_string(port_); }
  bool called() const {
    pollfd waiting{socket_, POLLIN, 0};
    return ::poll(&waiting, 1, 0) > 0;
  }

 private:
  int socket_;
  int port_ = 0;
};

struct Reach {
  const char* name;
  std::string inside;
  std::string before;
};

std::vector<Reach> reaches(const Place& place, const std::string& http) {
  const std::string file = "file://" + place.outside("secret");
  const auto image = [](const std::string& href) {
    return "<image width=\"90\" height=\"90\" xlink:href=\"" + href + "\"/>";
  };
  return {
      {"image-by-file", image(file + ".png"), {}},
      {"image-by-path", image(place.outside("secret.png")), {}},
      {"image-climbing", image("../outside/secret.png"), {}},
      {"image-climbing-encoded", image("%2e%2e/outside/secret.png"), {}},
      {"image-climbing-from-below", image("sub/../../outside/secret.png"), {}},
      {"image-through-a-link", image("link.png"), {}},
      {"image-through-a-linked-folder", image("linked/secret.png"), {}},
      {"image-by-http", image(http + "/a.png"), {}},
      {"image-href-without-prefix", "<image width=\"9\" height=\"9\" href=\"" + file + ".png\"/>", {}},
      {"image-of-text", image("../outside/secret.txt"), {}},
      {"use-of-a-file", "<use xlink:href=\"" + file + ".svg#x\"/>", {}},
      {"use-climbing", "<use href=\"../outside/secret.svg#x\"/>", {}},
      {"use-by-http", "<use xlink:href=\"" + http + "/a.svg#x\"/>", {}},
      {"use-through-a-link", "<use xlink:href=\"link.svg#x\"/>", {}},
      {"filter-image", "<filter id=\"f\"><feImage xlink:href=\"" + file +
           ".png\"/></filter><rect width=\"90\" height=\"90\" filter=\"url(#f)\"/>", {}},
      {"filter-elsewhere", "<rect width=\"9\" height=\"9\" filter=\"url(" + file + ".svg#x)\"/>", {}},
      {"fill-elsewhere", "<rect width=\"9\" height=\"9\" fill=\"url(" + http + "/a.svg#x)\"/>", {}},
      {"mask-elsewhere", "<rect width=\"9\" height=\"9\" mask=\"url('" + file + ".svg#x')\"/>", {}},
      {"style-import", "<style>@import url(" + file + ".css);</style>", {}},
      {"style-import-by-http", "<style>@import '" + http + "/a.css';</style>", {}},
      {"style-import-escaped", "<style>@\\69mport url(../outside/secret.css);</style>", {}},
      {"style-background", "<style>rect{fill:url(" + http + "/a.svg#x);background:url(" + http +
           "/b.png)}</style>", {}},
      {"style-font-face", "<style>@font-face{font-family:x;src:url(" + http + "/x.woff)}</style>"
           "<text font-family=\"x\" y=\"50\">a</text>", {}},
      {"style-attribute", "<rect width=\"9\" height=\"9\" style=\"fill:url('" + http + "/a#x')\"/>", {}},
      {"stylesheet-instruction", {}, "<?xml-stylesheet href=\"" + file + ".css\" type=\"text/css\"?>"},
      {"stylesheet-by-http", {}, "<?xml-stylesheet href=\"" + http + "/a.css\" type=\"text/css\"?>"},
      {"entity-of-a-file", "<text y=\"50\">&x;</text>",
       "<!DOCTYPE svg [<!ENTITY x SYSTEM \"" + file + ".txt\">]>"},
      {"entity-in-the-title", "<desc>&x;</desc>",
       "<!DOCTYPE svg [<!ENTITY x SYSTEM \"../outside/secret.txt\">]>"},
      {"entity-by-parameter", "<desc>&y;</desc>",
       "<!DOCTYPE svg [<!ENTITY % p SYSTEM \"" + file + ".txt\"> %p;]>"},
      {"doctype-by-http", {}, "<!DOCTYPE svg SYSTEM \"" + http + "/svg.dtd\">"},
      {"include", "<xi:include xmlns:xi=\"http://www.w3.org/2001/XInclude\" parse=\"text\" href=\"" +
           file + ".txt\"/>", {}},
      {"include-in-text", "<text y=\"50\"><xi:include xmlns:xi=\"http://www.w3.org/2001/XInclude\" "
           "parse=\"text\" href=\"../outside/secret.txt\"/></text>", {}},
      {"tref", "<text y=\"50\"><tref xlink:href=\"" + file + ".svg#x\"/></text>", {}},
      {"foreign-object", "<foreignObject width=\"90\" height=\"90\"><iframe "
           "xmlns=\"http://www.w3.org/1999/xhtml\" src=\"" + file + ".txt\"/></foreignObject>", {}},
      {"script-by-http", "<script xlink:href=\"" + http + "/a.js\"/>", {}},
      {"script-and-handlers", "<script>fetch('" + http + "')</script><rect width=\"9\" "
           "height=\"9\" onclick=\"alert(1)\" OnLoad=\"alert(2)\"/>", {}},
      {"link-with-script", "<a xlink:href=\"java&#10;script:alert(1)\"><rect width=\"9\" "
           "height=\"9\"/></a>", {}},
      {"set-writes-a-handler", "<rect width=\"9\" height=\"9\"><set attributeName=\"onclick\" "
           "to=\"alert(1)\"/><animate attributeName=\"xlink:href\" values=\"" + http + "/a\"/></rect>", {}},
      {"nested-data-image", image("data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' "
           "xmlns:xlink='http://www.w3.org/1999/xlink'%3E%3Cimage width='9' height='9' "
           "xlink:href='" + file + ".png'/%3E%3C/svg%3E"), {}},
      {"base-moves-the-folder", "<g xml:base=\"../outside/\">" + image("secret.png") + "</g>", {}},
      {"cursor-and-profile", "<cursor id=\"c\" xlink:href=\"" + http + "/c.png\"/><color-profile "
           "name=\"p\" xlink:href=\"" + http + "/p.icc\"/>", {}},
  };
}

std::vector<std::string> reach_names() {
  const Place place;
  std::vector<std::string> names;
  for (const Reach& reach : reaches(place, "http://127.0.0.1:1")) names.emplace_back(reach.name);
  return names;
}

class Reaching : public testing::TestWithParam<std::string> {};

TEST_P(Reaching, Figure_gets_nothing) {
  const Place place;
  const Listener listener;
  std::filesystem::create_symlink(place.outside("secret.png"), place.figure("link.png"));
  std::filesystem::create_symlink(place.outside("secret.svg"), place.figure("link.svg"));
  std::filesystem::create_directory_symlink(place.path() / "outside", place.figure("linked"));
  std::filesystem::create_directories(place.figure("sub"));
  for (const Reach& reach : reaches(place, listener.address())) {
    if (reach.name != GetParam()) continue;
    const std::string file = place.figure("plain.svg");
    support::write(file, plain_figure(reach.inside, reach.before));
    expect_all_sheets_or_findings(place, file);
    // Pixels too: the secret picture and style are of one violet.
    support::write(place.figure("plain.terms.yaml"), plain_terms());
    const support::Finished png = expect_sheet_or_findings(
        place, {"sheet", file, "--terms", place.figure("plain.terms.yaml"), "--kind", "poster",
                "--paper", "a6", "--out", place.out("poster.png")},
        place.out("poster.png"));
    EXPECT_FALSE(listener.called());
    EXPECT_FALSE(support::contains(png.err, secret));
    if (png.code != 0) continue;
    EXPECT_FALSE(shows_violet(place.out("poster.png")));
  }
}

INSTANTIATE_TEST_SUITE_P(Ways, Reaching, testing::ValuesIn(reach_names()),
                         [](const auto& test) {
                           std::string name = test.param;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

// The other side of the same coin: what lies beside the figure is shown.
TEST(Picture_beside, A_figure_is_shown_and_carried_along) {
  const Place place;
  std::filesystem::copy_file(place.outside("secret.png"), place.figure("beside.png"));
  support::write(place.figure("plain.svg"),
                 plain_figure("<image width=\"90\" height=\"90\" xlink:href=\"beside.png\"/>"));
  const support::Finished done =
      support::platewright({"sheet", place.figure("plain.svg"), "--kind", "colouring", "--out",
                            place.out("page.pdf")});
  EXPECT_EQ(done.code, 0) << done.said();
  support::write(place.figure("plain.terms.yaml"), plain_terms());
  for (const std::string& name : {place.out("poster.png"), place.out("poster.svg")}) {
    const support::Finished poster =
        support::platewright({"sheet", place.figure("plain.svg"), "--terms",
                              place.figure("plain.terms.yaml"), "--kind", "poster", "--out", name});
    EXPECT_EQ(poster.code, 0) << poster.said();
  }
  EXPECT_TRUE(shows_violet(place.out("poster.png")));
  EXPECT_TRUE(support::contains(support::bytes_of(place.out("poster.svg")), "data:image/png"));
}

}  // namespace
}  // namespace engine_test
