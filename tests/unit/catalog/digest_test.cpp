// The fingerprint that ties an old verdict to the data it was judged by.
#include "catalog/digest.h"

#include <array>
#include <vector>

#include <gtest/gtest.h>

#include "catalog/embedded.h"

namespace pumpwright {
namespace {

TEST(Digest, DoesNotDependOnTheOrderOfTheFiles) {
  const std::array one{NamedBytes{"a.toml", "x"}, NamedBytes{"b.toml", "y"}};
  const std::array other{NamedBytes{"b.toml", "y"}, NamedBytes{"a.toml", "x"}};
  EXPECT_EQ(digest_of(one), digest_of(other));
}

TEST(Digest, ChangesWithEveryNameAndByte) {
  const std::array base{NamedBytes{"a.toml", "x"}, NamedBytes{"b.toml", "y"}};
  const std::array swapped{NamedBytes{"a.toml", "y"}, NamedBytes{"b.toml", "x"}};
  const std::array moved{NamedBytes{"a.tomlx", ""}, NamedBytes{"b.toml", "y"}};
  const std::array renamed{NamedBytes{"c.toml", "x"}, NamedBytes{"b.toml", "y"}};
  for (const auto& changed : {swapped, moved, renamed})
    EXPECT_NE(digest_of(base), digest_of(changed));
}

TEST(Digest, IsWrittenAsSixtyFourHexadecimalDigits) {
  const std::string digest = digest_of({});
  EXPECT_EQ(digest.size(), 64U);
  EXPECT_EQ(digest.find_first_not_of("0123456789abcdef"), std::string::npos);
}

// Python's hashlib.blake2b(digest_size=32) over the same bytes: 8-byte lengths, names and contents in order.
TEST(Digest, IsBlake2bOverLengthsNamesAndBytes) {
  const std::array files{NamedBytes{"b.toml", "y"}, NamedBytes{"a.toml", "x"}};
  EXPECT_EQ(digest_of(files), "822819d6dd98c22ff23f3cf22128a6bf7f5ad92df32f5116182486c23defa13d");
}

TEST(Digest, OfTheCatalogCoversItsStepFilesToo) {
  std::vector<NamedBytes> files(embedded_catalog().begin(), embedded_catalog().end());
  const std::string before = Catalog::load(files).digest();
  EXPECT_EQ(before, digest_of(files));
  files.push_back({"steps/zz_added.toml", "added = true"});
  EXPECT_NE(Catalog::load(files).digest(), before);
}

}  // namespace
}  // namespace pumpwright
