// SPDX-License-Identifier: MIT
#include "json/show_json.h"

#include "json/record_json.h"

namespace loopledger::json {

Json to_json(const commands::ShowAnswer& answer) {
  return answer.record ? record_json(*answer.record, answer.today, answer.said)
                       : nothing_but(answer.said);
}

}  // namespace loopledger::json
