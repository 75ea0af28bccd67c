// SPDX-License-Identifier: MIT
//
// The dialogue at the scale: one typed line in, one line to be read from a metre out. Each entry
// is on disk before the answer is given. Works the same for a person, a scale or hand scanner that
// types, and a pipe. It stays on a motor until that is washed, unless another is named.
//
//   th3 1.776      a reading, a loop, turns, by what that motor lacks and what the value is near to
//   1.776          the same for the motor that the prompt names
//   th3            names the motor; so does a scanned tag
//   anna           names the owner's next motor that lacks something
//   (Enter)        goes to the next motor that lacks something
//   undo, skip, stop, show th3, list, check 1.001 (a 1 g weight read so), ?
#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity_text.h"
#include "base/result.h"
#include "commands/take_entry.h"
#include "commands/world.h"
#include "records/ledger.h"

namespace loopledger::commands {

struct BenchSetup {
  std::vector<MotorId> motors;  ///< in the plan's order
  Units units = Units::metric;
  Mass scale_error;
  Mass scale_step;
  std::optional<double> winder_ratio;  ///< today's
  bool long_help = false;              ///< `?` may take several lines
};

class BenchDialogue {
 public:
  /// `world` must outlive the dialogue.
  BenchDialogue(World& world, records::Ledger ledger, BenchSetup setup);

  /// "TH-02 Mirel: washed, g (1.468–1.470)> "; "> " when nothing is missing.
  [[nodiscard]] std::string prompt();

  struct Answer {
    std::string text{};                  ///< without its end; one line but of `?` and `list`
    std::vector<std::string> summary{};  ///< of `show` instead: lines of any width
    bool stop = false;
    Diagnostics said{};                 ///< what could not be understood or stored
    std::optional<TakenEntry> taken{};  ///< what was stored, `undo` among it
  };
  [[nodiscard]] Answer take(std::string_view line);
  /// Entries stored here and not taken back.
  [[nodiscard]] std::size_t stored() const { return done_.size(); }

 private:
  struct Pending {
    MotorId id;
    OfferedEntry offered;
  };
  struct Done {
    MotorId id;
    std::string key;
    std::string words;
  };

  Answer take_words(const std::vector<std::string>& words);
  std::optional<Answer> take_command(const std::vector<std::string>& words);
  Answer take_values(const MotorId& id, const std::vector<std::string>& words);
  Answer take_entry(const MotorId& id, OfferedEntry offered);
  [[nodiscard]] Answer ask_back(const records::Record& record, const CheckedEntry& checked) const;
  Answer store(const records::Record& record, CheckedEntry checked);
  Answer undo();
  Answer skip();
  [[nodiscard]] Answer show(const std::vector<std::string>& words);
  [[nodiscard]] Answer list();
  Answer check_weight(const std::vector<std::string>& words);
  [[nodiscard]] std::optional<Done> newest_of_tonight();
  [[nodiscard]] bool is_newest_here(const records::Record& record) const;
  void propose_after(std::optional<std::size_t> from);
  void go_on_from(const MotorId& id, const records::Entry& entry);
  [[nodiscard]] std::optional<MotorId> named(const std::vector<std::string>& words);
  [[nodiscard]] std::optional<MotorId> owners_next(const std::vector<std::string>& words);
  [[nodiscard]] Diagnostics wrong_id(const std::vector<std::string>& words);

  World& world_;
  records::Ledger ledger_;
  BenchSetup setup_;
  std::optional<MotorId> current_;
  std::set<std::string> skipped_;   ///< printed ids
  std::optional<Pending> pending_;  ///< asked back, not stored yet
  std::vector<Done> done_;
  std::string check_note_;  ///< what a check weight read, kept with each reading
};

}  // namespace loopledger::commands
