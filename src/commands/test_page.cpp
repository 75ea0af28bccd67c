// SPDX-License-Identifier: MIT
#include "commands/test_page.h"

#include "commands/paths.h"
#include "commands/plan_input.h"
#include "commands/print_setup.h"
#include "page/print_correction.h"
#include "sheets/test_page.h"

namespace loopledger::commands {
namespace {

void make_page(const PrintOrder& order, const std::string& folder, const std::optional<Date>& date,
               bool overwrite, TestPageAnswer& answer, World& world) {
  const auto setup = set_up_printing(order, world);
  append(answer.said, setup.diagnostics());
  if (!setup) {
    return;
  }
  answer.stock = setup->labels;
  answer.printer_file =
      setup->printer_file.empty() ? "a file named by LOOPLEDGER_PRINTER" : setup->printer_file;
  const plan::Stock& stock = answer.stock;
  const auto correction = page::print_correction(setup->misses.miss_on(stock.name), stock.dpi);
  const sheets::TestPage wanted{.stock = stock,
                                .printer_file = answer.printer_file,
                                .corrected = page::described(correction),
                                .created = creation_date(date, *setup)};
  Documents documents(world, *setup, folder, overwrite);
  append(answer.said,
         documents.add("test-page.pdf", stock, sheets::test_page(wanted, *setup->metrics)));
  if (!has_errors(answer.said)) {
    append(answer.said, documents.finish());
  }
  if (!has_errors(answer.said)) {
    answer.file = documents.files().front();
  }
}

}  // namespace

TestPageAnswer test_page(const TestPageRequest& request, World& world) {
  TestPageAnswer answer;
  if (request.plan.empty()) {
    make_page(order_of(request.paper, request.labels, {}),
              request.out.empty() ? "out" : request.out, {}, request.overwrite, answer, world);
    return answer;
  }
  const auto input = load_plan(request.plan, world);
  answer.said = input.diagnostics();
  if (!input) {
    return answer;
  }
  const plan::Plan& plan = input->plan;
  make_page(order_of(plan, request.paper, request.labels, {}),
            request.out.empty() ? beside(request.plan, "out") : request.out,
            plan.date.given ? std::optional(plan.date.value) : std::nullopt, request.overwrite,
            answer, world);
  quote_lines(*input, answer.said);
  return answer;
}

}  // namespace loopledger::commands
