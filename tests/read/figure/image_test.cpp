#include <filesystem>
#include <fstream>

#include "read/image_bytes.hpp"
#include "reading.hpp"

namespace platewright::read {
namespace {

using namespace std::string_view_literals;

// Headers written by hand from the standards that image_bytes.hpp names.
TEST(Image_header, Tells_size_and_kind) {
  const auto size = [](std::string_view bytes) {
    const auto header = image_header(bytes);
    return header ? std::string(header->media_type) + " " + std::to_string(header->width) + "x" +
                        std::to_string(header->height)
                  : std::string("none");
  };
  EXPECT_EQ(size("\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR\0\0\1\0\0\0\0\x80"sv), "image/png 256x128");
  EXPECT_EQ(size("GIF89a\x10\0\x20\0"sv), "image/gif 16x32");
  EXPECT_EQ(size("\xff\xd8\xff\xe0\0\x04xx\xff\xc2\0\x11\x08\0\x40\x01\0"sv), "image/jpeg 256x64");
  EXPECT_EQ(size("RIFF\0\0\0\0WEBPVP8X\0\0\0\0\0\0\0\0\x0f\0\0\x1f\0\0"sv), "image/webp 16x32");
  EXPECT_EQ(size("RIFF\0\0\0\0WEBPVP8L\0\0\0\0\x2f\x0f\xc0\x07\0"sv), "image/webp 16x32");
  EXPECT_EQ(size("<svg/>"), "none");
  EXPECT_EQ(size("\xff\xd8\xff"sv), "none");
  EXPECT_EQ(size("\xff\xd8\xff\xe0\0\0"sv), "none");
}

TEST(Data_uri, Goes_there_and_back_for_every_length) {
  std::string bytes;
  for (int i = 0; i < 70; ++i) {
    const auto back = parse_data_uri(data_uri("image/png", bytes));
    ASSERT_TRUE(back);
    EXPECT_EQ(back->bytes, bytes);
    EXPECT_EQ(back->media_type, "image/png");
    bytes += static_cast<char>(i * 37);
  }
}

TEST(Data_uri, Reads_what_rfc_4648_gives_as_examples) {
  EXPECT_EQ(parse_data_uri("data:;base64,Zm9vYmFy")->bytes, "foobar");
  EXPECT_EQ(parse_data_uri("DATA:image/PNG;base64,Zm9v\n YmE=")->bytes, "fooba");
  EXPECT_EQ(parse_data_uri("data:text/plain,a%20b")->bytes, "a b");
  EXPECT_FALSE(parse_data_uri("data:image/png;base64,@@@@"));
  EXPECT_FALSE(parse_data_uri("data:image/png"));
  EXPECT_FALSE(parse_data_uri("http://a,b"));
}

TEST(Images, A_symbolic_link_out_of_the_folder_is_not_followed) {
  namespace fs = std::filesystem;
  const fs::path root = fs::path(PW_BINARY_DIR) / "image-link-test";
  fs::remove_all(root);
  fs::create_directories(root / "figures");
  fs::copy_file(PW_SOURCE_DIR "/tests/read/figure/cases/beside/dot.png", root / "secret.png");
  fs::copy_file(PW_SOURCE_DIR "/tests/read/figure/cases/beside/dot.png",
                root / "figures" / "real.png");
  fs::create_symlink(root / "secret.png", root / "figures" / "link.png");
  fs::create_symlink(root, root / "figures" / "up");
  fs::create_symlink("real.png", root / "figures" / "alias.png");
  const std::string path = (root / "figures" / "f.svg").string();
  const auto with = [&](const std::string& href) {
    return figure(svg_of(paper + "<image width=\"9\" height=\"9\" href=\"" + href + "\"/>"), path,
                  {});
  };
  EXPECT_EQ(codes(with("link.png").findings()), std::vector<std::string>{"image-outside"});
  EXPECT_EQ(codes(with("up/secret.png").findings()), std::vector<std::string>{"image-outside"});
  EXPECT_TRUE(with("alias.png").ok());
  EXPECT_TRUE(with("./real.png").findings().empty());
  EXPECT_EQ(codes(with(".").findings()), std::vector<std::string>{"image-outside"});
  fs::remove_all(root);
}

TEST(Images, One_beside_the_figure_is_drawn) {
  const std::string folder = PW_SOURCE_DIR "/tests/read/figure/cases/";
  const auto bytes = file_bytes(folder + "image-beside.svg", 1 << 20);
  const auto result = figure(*bytes, folder + "image-beside.svg", {});
  ASSERT_TRUE(result.ok());
  EXPECT_NE(result->svg.find("data:image/png;base64,"), std::string::npos);
  EXPECT_NEAR(result->painted.x, 5, 0.3);  // the image begins at 5, the square at 10
}

}  // namespace
}  // namespace platewright::read
