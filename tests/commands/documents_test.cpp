// SPDX-License-Identifier: MIT
#include "commands/documents.h"

#include <doctest/doctest.h>

#include "support/memory_world.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

page::Document one_page(const std::string& title) {
  page::Document document;
  document.title = title;
  document.pages.emplace_back();
  return document;
}

/// A world that prints on plain paper.
class Desk {
 public:
  Desk() {
    world.templates.take_tree();
    auto loaded = commands::set_up_printing(commands::order_of({}, {}, {}), world.get());
    REQUIRE_MESSAGE(loaded.ok(), render(loaded.diagnostics()));
    setup = std::move(*loaded);
  }

  /// A document of one page for each name, not written yet.
  commands::Documents of(const std::vector<std::string>& names, bool overwrite = false) {
    commands::Documents documents(world.get(), setup, "out", overwrite);
    for (const std::string& name : names) {
      const Diagnostics said = documents.add(name, setup.paper, one_page(name));
      REQUIRE_MESSAGE(said.empty(), render(said));
    }
    return documents;
  }

  MemoryWorld world;
  commands::PrintSetup setup;
};

std::string codes_of_all(const Diagnostics& said) {
  std::string out;
  for (const Diagnostic& d : said) {
    out += (out.empty() ? "" : " ") + d.code + " " + d.place.file;
  }
  return out;
}

}  // namespace

TEST_CASE("documents stand in the folder, which is made, once all are put in place") {
  Desk desk;
  commands::Documents documents = desk.of({"a.pdf", "b.pdf"});
  CHECK(documents.write().empty());
  CHECK(desk.world.files.folders.contains("out"));
  CHECK(desk.world.files.files.empty());
  CHECK(documents.commit().empty());
  CHECK(desk.world.files.committed == std::vector<std::string>{"out/a.pdf", "out/b.pdf"});
  REQUIRE(documents.files().size() == 2);
  CHECK(documents.files()[1].path == "out/b.pdf");
  CHECK(documents.files()[1].pages == 1);
  CHECK_FALSE(documents.files()[1].replaced);
  CHECK(desk.world.files.files["out/b.pdf"].starts_with("%PDF-"));
}

TEST_CASE("a document of ours is replaced, and it is told that one was") {
  Desk desk;
  CHECK(desk.of({"a.pdf"}).finish().empty());
  commands::Documents again = desk.of({"a.pdf", "b.pdf"});
  CHECK(again.finish().empty());
  CHECK(again.files()[0].replaced);
  CHECK_FALSE(again.files()[1].replaced);
}

TEST_CASE("a foreign file, a changed one of ours and a link stop all, until they may be replaced") {
  Desk desk;
  REQUIRE(desk.of({"changed.pdf"}).finish().empty());
  auto& files = desk.world.files;
  files.files["out/changed.pdf"] += " ";
  files.files["out/foreign.pdf"] = "%PDF-1.7 somebody's";
  files.links.insert("out/link.pdf");
  const std::vector<std::string> names{"changed.pdf", "foreign.pdf", "link.pdf", "new.pdf"};
  const auto before = files.files;
  commands::Documents documents = desk.of(names);
  CHECK(codes_of_all(documents.finish()) ==
        "disk-foreign out/changed.pdf disk-foreign out/foreign.pdf disk-foreign out/link.pdf");
  CHECK(files.files == before);
  CHECK(desk.of(names, true).finish().empty());
  CHECK(files.files["out/foreign.pdf"] != before.at("out/foreign.pdf"));
  CHECK(files.files.contains("out/link.pdf"));
  CHECK(files.files.contains("out/new.pdf"));
}

TEST_CASE("a folder in the way is never replaced, nor a file where the folder should be") {
  Desk desk;
  desk.world.files.folders.insert("out/a.pdf");
  CHECK(codes_of_all(desk.of({"a.pdf"}, true).finish()) == "disk-folder out/a.pdf");
  Desk file;
  file.world.files.files["out"] = "a note";
  CHECK(codes_of_all(file.of({"a.pdf"}, true).finish()) == "disk-folder out");
  CHECK(file.world.files.files.size() == 1);
}

TEST_CASE("a write that fails leaves nothing, of the others neither") {
  Desk desk;
  desk.world.files.fail(FileCall::write, "out/b.pdf");
  commands::Documents documents = desk.of({"a.pdf", "b.pdf", "c.pdf"});
  CHECK(codes_of_all(documents.write()) == "disk-io out/b.pdf");
  CHECK(documents.commit().empty());
  CHECK(desk.world.files.files.empty());
}

TEST_CASE("when one can't be put in place the error names it, and the others are there") {
  Desk desk;
  desk.world.files.fail(FileCall::commit, "out/b.pdf");
  CHECK(codes_of_all(desk.of({"a.pdf", "b.pdf", "c.pdf"}).finish()) == "disk-io out/b.pdf");
  CHECK(desk.world.files.committed == std::vector<std::string>{"out/a.pdf", "out/c.pdf"});
}

TEST_CASE("a document that could not be made tells why and is not written") {
  Desk desk;
  commands::Documents documents = desk.of({"a.pdf"});
  const Diagnostics made = documents.add("b.pdf", desk.setup.paper,
                                         Result<page::Document>(error("page-paper", "too small")));
  CHECK(codes_of_all(made) == "page-paper ");
  const Diagnostics empty = documents.add("c.pdf", desk.setup.paper, page::Document());
  CHECK(codes_of_all(empty) == "pdf-empty ");
  CHECK(documents.files().size() == 1);
}

TEST_CASE("what the printer misses by is made up for, and a note names the document") {
  Desk desk;
  REQUIRE(desk.of({"as-it-is.pdf"}).finish().empty());
  desk.setup.misses.usual.right = Length::mm(0.6);
  desk.setup.printer_file = "printer.toml";
  commands::Documents documents(desk.world.get(), desk.setup, "out", false);
  const Diagnostics said = documents.add("moved.pdf", desk.setup.paper, one_page("as-it-is.pdf"));
  REQUIRE(said.size() == 1);
  CHECK(said.front().code == "printer-fit");
  CHECK(said.front().message == "moved.pdf is moved 0.6 mm left, as printer.toml says");
  CHECK(documents.finish().empty());
  CHECK(desk.world.files.files["out/moved.pdf"] != desk.world.files.files["out/as-it-is.pdf"]);
}
