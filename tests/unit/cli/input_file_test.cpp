#include "cli/input_file.h"

#include <filesystem>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

namespace pumpwright {
namespace {

namespace fs = std::filesystem;

class InputFile : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::path(::testing::TempDir()) /
              ("input_file_" + std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  std::string make(const std::string& name, const std::string& content) const {
    const auto path = folder_ / name;
    fs::create_directories(path.parent_path());
    std::ofstream(path) << content;
    return path.string();
  }

  fs::path folder_;
  std::istringstream nothing_;
};

TEST_F(InputFile, ReadsAFileAndStandardInput) {
  EXPECT_EQ(read_input(make("a", "content\n"), 100, nothing_), "content\n");
  std::istringstream in("from a pipe");
  EXPECT_EQ(read_input("-", 100, in), "from a pipe");
}

TEST_F(InputFile, TakesAFileOfExactlyTheBoundAndRefusesOneByteMore) {
  EXPECT_EQ(read_input(make("a", "12345"), 5, nothing_).size(), 5U);
  EXPECT_THROW(read_input(make("b", "123456"), 5, nothing_), BadInput);
  std::istringstream in("123456");
  EXPECT_THROW(read_input("-", 5, in), BadInput);
}

TEST_F(InputFile, RefusesWhatIsNoReadableFile) {
  EXPECT_THROW(read_input((folder_ / "missing").string(), 5, nothing_), BadInput);
  EXPECT_THROW(read_input(folder_.string(), 5, nothing_), BadInput);
}

TEST_F(InputFile, PutsTheFileInFrontOfThePlace) {
  const BadInput inner({.field = "nominal", .place = "/links/0", .value = "1", .expected = "a length"});
  EXPECT_STREQ(in_file("chain.json", inner).what(),
               "chain.json: /links/0: nominal: read \"1\"; valid: a length");
  const BadInput whole({.field = "document", .place = "", .value = "", .expected = "JSON"});
  EXPECT_STREQ(in_file("-", whole).what(), "standard input: document; valid: JSON");
}

TEST_F(InputFile, ReplacesAFileWholeAndLeavesNothingElseBehind) {
  const auto path = make("out", "old");
  write_output(path, "new", "--report");
  EXPECT_EQ(read_input(path, 100, nothing_), "new");
  EXPECT_EQ(std::distance(fs::directory_iterator(folder_), fs::directory_iterator()), 1);
}

TEST_F(InputFile, RefusesToWriteWhereItCanNot) {
  EXPECT_THROW(write_output(folder_.string(), "x", "--report"), BadInput);
  EXPECT_THROW(write_output((folder_ / "no" / "such").string(), "x", "--report"), BadInput);
}

TEST_F(InputFile, ReadsATreeByNameWithSlashes) {
  make("b.toml", "2");
  make("steps/a.toml", "3");
  make("ignored.txt", "x");
  const auto files = read_tree(folder_.string(), ".toml", "--catalog");
  ASSERT_EQ(files.size(), 2U);
  EXPECT_EQ(files[0].name, "b.toml");
  EXPECT_EQ(files[1].name, "steps/a.toml");
  EXPECT_EQ(files[1].bytes, "3");
}

TEST_F(InputFile, RefusesATreeWithoutFiles) {
  EXPECT_THROW(read_tree(folder_.string(), ".toml", "--catalog"), BadInput);
  EXPECT_THROW(read_tree((folder_ / "missing").string(), ".toml", "--catalog"), BadInput);
}

}  // namespace
}  // namespace pumpwright
