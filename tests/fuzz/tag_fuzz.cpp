// SPDX-License-Identifier: MIT
#include <algorithm>
#include <string>

#include "base/text.h"
#include "fuzz/claim.h"
#include "fuzz/targets.h"
#include "motor/tag_fits.h"
#include "records/id_text.h"
#include "records/ledger.h"
#include "support/memory_disk.h"
#include "tag/id.h"
#include "tag/qr.h"
#include "tag/tag_text.h"

namespace loopledger::fuzz {
namespace {

using namespace loopledger::tag;

void claim_id(const MotorId& id) {
  claim(is_stem(id.stem) && id.stem == upper_ascii(id.stem) && id.number >= 1 &&
            id.number <= kMotorNumberMax,
        "an id that is none", printed(id));
  const auto again = id_from(with_check(id));
  claim(again.ok() && again->id == id && again->checked, "an id that is read as another",
        with_check(id));
  claim(records::printed_id_from(printed(id)) == id, "a printed id that is read as another",
        printed(id));
}

/// Whatever is said to be an id, no path leaves the folder.
void claim_path(const MotorId& id) {
  test::MemoryDisk disk;
  const std::string path = records::Ledger(disk, "records").path_of(id);
  claim(path.empty() || (path.starts_with("records/") && std::ranges::count(path, '/') == 1 &&
                         path.find("..") == std::string::npos &&
                         path.find('\0') == std::string::npos && !first_bad_utf8(path)),
        "a path that leaves the folder", path);
}

/// Labels written of these figures are read as these figures, character for character.
void claim_written(const TagFigures& figures) {
  claim_id(figures.id);
  claim_path(figures.id);
  const auto texts = tag_texts(figures);
  claim(!texts.empty() && texts.back() == with_check(figures.id), "no text of a tag");
  for (const std::string& text : texts) {
    claim_harmless(text);
    claim(text.size() <= kTagMaxCharacters, "a tag longer than its code", text);
    const auto again = read_label(text);
    claim(again.ok() && again->id == figures.id, "a tag that can't be read", text);
    claim(tag_texts(*again).front() == text, "a tag that is written otherwise", text);
    const auto qr = make_qr(text);
    const auto size = qr_size(text);
    claim(qr.ok() && size && size->version == qr->version && size->level == qr->level,
          "a code of another size than foreseen", text);
    claim(qr->modules == 17 + 4 * qr->version &&
              qr->dark.size() == static_cast<std::size_t>(qr->modules * qr->modules),
          "a code without its modules", text);
  }
  const std::string address = tag_address("https://example.org/m/{id}?a=1", figures.id);
  const auto by_address = read_label(address);
  claim(by_address.ok() && by_address->id == figures.id, "an address that can't be read", address);
  (void)motor::tag_misfits(figures, records::Record{});
}

void labels(std::string_view input) {
  const auto label = read_label(input);
  claim_result(label, input.size());
  if (!label) {
    return;
  }
  claim(input.size() <= kTagMaxBytes, "a label past its bounds");
  claim_written(*label);
  const auto typed = read_tag(input);
  claim(typed.ok() && typed->id == label->id, "a label that is another motor's when typed", input);
  const auto texts = tag_texts(*label);
  claim(input.find("://") != std::string_view::npos || input.find('/') != std::string_view::npos ||
            std::ranges::count(texts, input) == 1,
        "a label that no label says", input);
}

void typed_ones(std::string_view input) {
  const auto typed = read_tag(input);
  claim_result(typed, input.size());
  if (typed) {
    claim_written(*typed);
  }
  const auto id = id_from(input);
  claim_result(id, input.size());
  const auto near = ids_one_slip_away(input);
  claim(!id || near.empty(), "an id, and others one slip away", input);
  claim(near.size() <= 2000, "ids without an end", input);
  for (const MotorId& other : near) {
    claim_id(other);
    claim(std::ranges::count(near, other) == 1, "an id twice", printed(other));
  }
  if (id) {
    claim_id(id->id);
    claim_path(id->id);
  }
}

void ids_in_files(std::string_view input) {
  if (const auto id = records::printed_id_from(input)) {
    claim_id(*id);
    claim(printed(*id) == input, "a file's id in another spelling", input);
  }
  if (const auto id = records::id_of_file(input)) {
    claim_id(*id);
    claim(printed(*id) + ".toml" == input, "a file name in another spelling", input);
  }
  const int number = input.empty() ? 0 : static_cast<int>(input.back()) * 100;
  claim_path({std::string(input), number});
  claim_path({std::string(input), 1});
}

}  // namespace

void tag(std::string_view input) {
  labels(input);
  typed_ones(input);
  ids_in_files(input);
  const auto qr = make_qr(input);
  claim_result(qr, input.size());
  claim(!qr || (!input.empty() && input.size() < 4300), "a code of what no code holds");
}

}  // namespace loopledger::fuzz
