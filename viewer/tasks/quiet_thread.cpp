#include <viewer/tasks/quiet_thread.hpp>
#ifdef __linux__
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>
#endif

namespace tintfall::viewer {

void weigh_less() {
#ifdef __linux__
  // Qt's thread priorities mean nothing under Linux's usual scheduler; its nice values do, thread by thread.
  constexpr int less = 5;
  static thread_local const int done =
      setpriority(PRIO_PROCESS, static_cast<id_t>(syscall(SYS_gettid)), less);
  static_cast<void>(done);
#endif
}

}  // namespace tintfall::viewer
