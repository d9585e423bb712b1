#include <colorlib/base/file_access.hpp>
#include <viewer/tasks/screen.hpp>

namespace tintfall::viewer {

using namespace colorlib;

Result<Screen> screen_from(const QString& file) {
  constexpr std::size_t limit_bytes = 16u << 20;
  auto transform = [&]() -> Result<DisplayTransform> {
    if (file.isEmpty()) return DisplayTransform::srgb();
    const auto bytes = read_file(file.toStdString(), "the screen's colour profile",
                                 ErrorCode::unreadable_table, limit_bytes);
    if (!bytes) return fail(bytes.error());
    return DisplayTransform::create(*bytes);
  }();
  if (!transform) return fail(transform.error());
  return std::make_shared<const DisplayTransform>(std::move(*transform));
}

ScreenSwatch swatch_of(const Lab& lab, const Screen& screen) {
  std::uint8_t rgb[3] = {119, 119, 119}, clipped = 0;
  if (screen) screen->from_lab(&lab, rgb, &clipped, 1);
  return {QColor(rgb[0], rgb[1], rgb[2]), clipped != 0};
}

}  // namespace tintfall::viewer
