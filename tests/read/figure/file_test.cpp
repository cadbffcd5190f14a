#include <filesystem>
#include <fstream>

#include "reading.hpp"

namespace platewright::read {
namespace {

TEST(File_bytes, Reads_all_bytes_and_no_more_than_the_limit) {
  const std::string path = PW_BINARY_DIR "/file-bytes-test.bin";
  const std::string content("a\0b\r\n\xff", 6);
  std::ofstream(path, std::ios::binary) << content;
  EXPECT_EQ(*file_bytes(path, 6), content);
  EXPECT_EQ(codes(file_bytes(path, 5).findings()), std::vector<std::string>{"file-large"});
  std::filesystem::remove(path);
}

TEST(File_bytes, Tells_what_is_no_file) {
  EXPECT_EQ(codes(file_bytes(PW_BINARY_DIR "/no-such-file", 9).findings()),
            std::vector<std::string>{"file-missing"});
  EXPECT_EQ(codes(file_bytes("", 9).findings()), std::vector<std::string>{"file-missing"});
  EXPECT_EQ(codes(file_bytes(PW_BINARY_DIR, 9).findings()),
            std::vector<std::string>{"file-unreadable"});
  EXPECT_EQ(codes(file_bytes("/dev/zero", 9).findings()),
            std::vector<std::string>{"file-unreadable"});
}

}  // namespace
}  // namespace platewright::read
