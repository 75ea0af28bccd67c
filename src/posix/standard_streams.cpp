// SPDX-License-Identifier: MIT
#include "posix/standard_streams.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <ios>
#include <string_view>
#include <system_error>

#include "commands/exit_code.h"
#include "posix/posix.h"

namespace loopledger::posix {

void fill_closed_descriptors() {
  for (int fd = STDIN_FILENO; fd <= STDERR_FILENO; ++fd) {
    if (::fcntl(fd, F_GETFD) < 0 && errno == EBADF) {
      // The lowest free number is given, which is `fd`.
      (void)::open("/dev/null", fd == STDIN_FILENO ? O_WRONLY : O_RDONLY);
    }
  }
}

InputBuffer::int_type InputBuffer::underflow() {
  ssize_t n = 0;
  do {
    n = ::read(fd_, buffer_.data(), buffer_.size());
  } while (n < 0 && errno == EINTR);
  if (n < 0) {
    // The stream that reads from here catches it and is bad from then on.
    throw std::ios_base::failure("read", std::error_code(errno, std::generic_category()));
  }
  setg(buffer_.data(), buffer_.data(), buffer_.data() + n);
  return n == 0 ? traits_type::eof() : traits_type::to_int_type(buffer_[0]);
}

OutputBuffer::OutputBuffer(int fd) : fd_(fd) {
  setp(buffer_.data(), buffer_.data() + buffer_.size());
}

int OutputBuffer::sync() {
  const std::string_view waiting(pbase(), static_cast<std::size_t>(pptr() - pbase()));
  if (failure_ == 0 && !write_all(fd_, waiting)) {
    failure_ = errno;
  }
  setp(buffer_.data(), buffer_.data() + buffer_.size());
  return failure_ == 0 ? 0 : -1;
}

OutputBuffer::int_type OutputBuffer::overflow(int_type c) {
  if (sync() != 0) {
    return traits_type::eof();
  }
  if (!traits_type::eq_int_type(c, traits_type::eof())) {
    sputc(traits_type::to_char_type(c));
  }
  return traits_type::not_eof(c);
}

int after_output(int code, const OutputBuffer& out, const OutputBuffer& errors, std::ostream& err,
                 Paint paint) {
  const auto lost = [](int failure) { return failure != 0 && failure != EPIPE; };
  if (lost(out.failure())) {
    const Diagnostic said = error(
        "disk-output",
        fmt::format("standard output can't be written: {}",
                    std::generic_category().message(out.failure())),
        code == commands::kDone ? "what the command had to store is stored; its text is lost" : "",
        {"loopledger", 0, 0});
    err << render(Diagnostics{said}, paint);
  }
  const bool any_lost = lost(out.failure()) || lost(errors.failure());
  return code == commands::kDone && any_lost ? commands::kEnvironment : code;
}

bool is_able(bool is_terminal, const Environment& env) {
  const auto term = env("TERM");
  return is_terminal && term && !term->empty() && *term != "dumb";
}

Paint paint_on(bool is_terminal, const Environment& env) {
  const bool unwanted = !env("NO_COLOR").value_or("").empty();
  return is_able(is_terminal, env) && !unwanted ? Paint::coloured : Paint::plain;
}

}  // namespace loopledger::posix
