#include "report/qr_tag.h"

#include <gtest/gtest.h>
#include <qrencode.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::report {
namespace {

TEST(QrTag, SaysJobNumberAndHash) {
  EXPECT_EQ(qr_text("G-2117", "4f0c9a"), "G-2117 4f0c9a");
}

TEST(QrTag, HasTheModulesThatEncodingTheTextAgainGives) {
  const std::string text = qr_text("G-2117", "4f0c9a1de2b7358846aa01c3d5e7f90b");
  QRcode* code = QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_M);
  ASSERT_NE(code, nullptr);
  const auto modules = qr_modules(text);
  ASSERT_EQ(modules.size(), static_cast<std::size_t>(code->width));
  for (std::size_t row = 0; row < modules.size(); ++row)
    for (std::size_t column = 0; column < modules.size(); ++column)
      EXPECT_EQ(modules[row][column], (code->data[row * modules.size() + column] & 1) == 1);
  QRcode_free(code);
}

TEST(QrTag, HasItsThreeFinderPatterns) {
  const auto modules = qr_modules("G-2117 4f0c");
  const std::size_t n = modules.size();
  for (const auto& [row, column] : {std::pair<std::size_t, std::size_t>{0, 0}, {0, n - 7}, {n - 7, 0}})
    for (std::size_t i = 0; i < 7; ++i) {
      EXPECT_TRUE(modules[row][column + i]);
      EXPECT_TRUE(modules[row + 6][column + i]);
      EXPECT_TRUE(modules[row + i][column]);
      EXPECT_TRUE(modules[row + i][column + 6]);
    }
}

TEST(QrTag, RefusesWhatNoCodeHolds) {
  EXPECT_THROW(qr_modules(std::string(3000, 'x')), BadInput);
  EXPECT_THROW(qr_modules(""), BadInput);
}

}  // namespace
}  // namespace pumpwright::report
