#include <gmock/gmock.h>

#include <iomanip>
#include <sstream>
#include <viewer/command/plain_stream.hpp>
#include <viewer/command/swatch.hpp>

namespace tintfall {
namespace {

using testing::Eq;
using testing::HasSubstr;

TEST(PlainStream, TakesControlsOutOfWhatPasses) {
  std::ostringstream target;
  PlainStream out(target);
  out << "QH-03\x1b[2J \xC2\x9B" << 31 << "m\t" << std::setprecision(2) << 0.25 << " \xE2\x80\xAE±\n"
      << std::flush;
  EXPECT_THAT(target.str(), Eq("QH-03?[2J ?31m\t0.25 ?±\n"));
}

TEST(PlainStream, PutsCharactersTogetherThatComeInPieces) {
  std::ostringstream target;
  PlainStream out(target);
  for (const char byte : std::string_view("ΔE00 \xC2\x9B")) out.put(byte);
  EXPECT_THAT(target.str(), Eq("ΔE00 ?"));
  out << '\xCE' << std::flush;
  EXPECT_THAT(target.str(), Eq("ΔE00 ??")) << "an unfinished character at the end is none";
}

TEST(PlainStream, OurOwnCodesPassInTheirPlace) {
  std::ostringstream target;
  PlainStream out(target);
  out << "a";
  write_swatch({100, 0, 0}, 2, out);
  out << "b";
  EXPECT_THAT(target.str(), Eq("a\x1b[48;2;255;255;255m  \x1b[0mb"));
  std::ostringstream direct;
  write_swatch({100, 0, 0}, 2, direct);
  EXPECT_THAT(direct.str(), HasSubstr("\x1b[0m"));
}

TEST(PlainStream, AFailedTargetFailsIt) {
  std::ostringstream target;
  PlainStream out(target);
  target.setstate(std::ios::badbit);
  out << "a" << std::flush;
  EXPECT_FALSE(out);
  PlainStream idle(target);
  idle << std::flush;
  EXPECT_FALSE(idle);
}

}  // namespace
}  // namespace tintfall
