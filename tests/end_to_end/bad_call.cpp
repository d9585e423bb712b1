#include <gmock/gmock.h>
#include <sys/resource.h>

#include <chrono>
#include <nlohmann/json.hpp>
#include <tests/end_to_end/bad_call.hpp>

namespace tintfall {
namespace {

using testing::Eq;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

constexpr double longest_s = 20;

void expect_error_object(const std::string& text, const Refusal& refusal) {
  const auto json = nlohmann::json::parse(text, nullptr, false);
  ASSERT_FALSE(json.is_discarded()) << text;
  ASSERT_TRUE(json.is_object() && json.contains("error")) << text;
  EXPECT_THAT(json["error"]["code"], Eq(refusal.code)) << text;
  const std::string message = json["error"]["message"], advice = json["error"]["advice"];
  EXPECT_THAT(message, HasSubstr(refusal.word));
  EXPECT_THAT(message.back(), Eq('.')) << message;
  EXPECT_THAT(message, Not(HasSubstr("\n"))) << "one sentence";
  EXPECT_THAT(advice, Not(IsEmpty())) << message;
}

}  // namespace

void expect_refused(const std::vector<std::string>& arguments, const Refusal& refusal) {
  std::string call = "tintfall";
  for (const auto& argument : arguments) call += " " + argument;
  SCOPED_TRACE(call);
  const ScratchFolder outputs;
  outputs.write("old.json", "what was there");
  const auto began = std::chrono::steady_clock::now();

  auto with_json = arguments;
  with_json.insert(with_json.end(), {"--json", "-"});
  const auto to_output = run_tintfall(with_json);
  EXPECT_THAT(to_output.status, Eq(refusal.status)) << to_output.err;
  expect_error_object(to_output.out, refusal);

  with_json.back() = outputs.path("old.json");
  const auto to_file = run_tintfall(with_json);
  EXPECT_THAT(to_file.status, Eq(refusal.status));
  EXPECT_THAT(to_file.out, IsEmpty());
  expect_error_object(to_file.err, refusal);
  EXPECT_THAT(outputs.read("old.json"), Eq("what was there"));
  EXPECT_THAT(outputs.entries(), Eq(1)) << "nothing half-written is left behind";

  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - began;
  EXPECT_LT(took.count(), 2 * longest_s);
}

namespace {

/// After all tests: none of them may have taken 2 GiB.
class MemoryBound : public testing::Environment {
 public:
  void TearDown() override {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    constexpr long two_gib_kb = 2L << 20;
    EXPECT_LT(usage.ru_maxrss, two_gib_kb);
    std::printf("largest memory of all calls: %ld MB\n", usage.ru_maxrss / 1024);
  }
};
const testing::Environment* const memory_bound = testing::AddGlobalTestEnvironment(new MemoryBound);

}  // namespace
}  // namespace tintfall
