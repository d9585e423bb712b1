#include <csignal>
#include <viewer/command/interruption.hpp>

namespace tintfall {
namespace {

volatile std::sig_atomic_t asked_to_stop = 0;
struct sigaction former_interrupt, former_terminate;

void note(int signal) {
  if (asked_to_stop != 0) {
    std::signal(signal, SIG_DFL);
    std::raise(signal);
  }
  asked_to_stop = 1;
}

}  // namespace

Interruption::Interruption() {
  asked_to_stop = 0;
  struct sigaction action {};
  action.sa_handler = note;
  sigemptyset(&action.sa_mask);
  action.sa_flags = 0;  // a waiting read or sleep is to end
  sigaction(SIGINT, &action, &former_interrupt);
  sigaction(SIGTERM, &action, &former_terminate);
}

Interruption::~Interruption() {
  sigaction(SIGINT, &former_interrupt, nullptr);
  sigaction(SIGTERM, &former_terminate, nullptr);
}

bool Interruption::asked() { return asked_to_stop != 0; }

}  // namespace tintfall
