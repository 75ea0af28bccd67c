// SPDX-License-Identifier: MIT
//
// A layout file's text -> plan::LabelLayout. Keys: text, code_share, and lines = [{name, show, or,
// capitals, least, fixed, bold, badge, wrap, rank}, …]. In `show` a name in braces is a field, four
// or more underscores are a blank for a pen, and " · " stands between parts.
#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "plan/label_layout.h"

namespace loopledger::plan {

/// Errors: those of plan/tree.h, plan-key, plan-type, plan-bounds, plan-missing, and `layout-field`
/// for a name in braces that no label has, or a brace that is not closed.
[[nodiscard]] Result<LabelLayout> read_label_layout(std::string_view text, const std::string& file,
                                                    const std::string& name);

}  // namespace loopledger::plan
