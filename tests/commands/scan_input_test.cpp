// SPDX-License-Identifier: MIT
#include "commands/scan_input.h"

#include "logged.h"
#include "photo/picture.h"

using namespace loopledger;
using namespace loopledger::test;
using commands::image_files;
using commands::read_tags;

TEST_CASE("arguments stand for themselves, folders for the pictures in them, each once") {
  MemoryFiles files;
  for (const char* path : {"bags/b.png", "bags/a.JPG", "bags/c.heic", "bags/notes.txt", "bags/.png",
                           "bags/png", "bags/deep/d.png", "one.txt"}) {
    files.files[path] = "x";
  }
  Diagnostics said;
  CHECK(image_files({"one.txt", "bags", "bags/b.png", "-", "-", "gone.png"}, files, said) ==
        std::vector<std::string>{"one.txt", "bags/a.JPG", "bags/b.png", "bags/c.heic", "-",
                                 "gone.png"});
  CHECK(said.empty());
}

TEST_CASE("a folder without pictures, or that can't be read, is an error at its place") {
  MemoryFiles files;
  files.files["notes/a.txt"] = "x";
  files.files["bags/a.png"] = "x";
  Diagnostics said;
  CHECK(image_files({"notes"}, files, said).empty());
  REQUIRE(said.size() == 1);
  CHECK(said[0].code == "disk-folder");
  CHECK(said[0].message == "the folder holds no PNG or JPEG picture");
  CHECK(said[0].place.file == "notes");
  CHECK(image_files({"bags"}, files, said).size() == 1);
  files.fail(FileCall::files_in, "bags");
  CHECK(image_files({"bags", "other.png"}, files, said) == std::vector<std::string>{"other.png"});
  REQUIRE(said.size() == 2);
  CHECK(said[1].code == "disk-folder");
  CHECK(said[1].place.file == "bags");
}

TEST_CASE("typed tags are read a line each, wrong ones named with their line") {
  MemoryFiles files;
  files.input = "th1\r\n\n  TH-02-H  \nnonsense here\nTH-01-A\n";
  const commands::ReadImage read = read_tags("-", files);
  REQUIRE(read.tags.size() == 2);
  CHECK(read.tags[0].text == "th1");
  CHECK(read.tags[0].figures.id == MotorId{"TH", 1});
  CHECK(read.tags[1].text == "TH-02-H");
  REQUIRE(read.said.size() == 2);
  CHECK(read.said[0].place.file == commands::kStandardInput);
  CHECK(read.said[0].place.line == 4);
  CHECK(read.said[1].code == "id-check");
  CHECK(read.said[1].place.line == 5);
}

TEST_CASE("nothing typed, or nothing but blanks, is no tag") {
  MemoryFiles files;
  for (const char* input : {"", "\n \n"}) {
    files.input = input;
    const commands::ReadImage read = read_tags("-", files);
    CHECK(read.tags.empty());
    CHECK(codes(read.said) == "none-tag ");
  }
}

TEST_CASE("a file of words is no picture, and what is no text is no typed tag") {
  MemoryFiles files;
  files.files["tags.txt"] = "th1\n";
  CHECK(codes(read_tags("tags.txt", files).said) == "image-form ");
  files.input = std::string("th1\n\0", 5);
  CHECK(codes(read_tags("-", files).said) == "image-form ");
  files.input = "th1\n\xff\n";
  CHECK(codes(read_tags("-", files).said) == "image-form ");
}

TEST_CASE("a file that can't be read is said with its place") {
  MemoryFiles files;
  const commands::ReadImage gone = read_tags("gone.png", files);
  CHECK(gone.tags.empty());
  CHECK(codes(gone.said) == "disk-missing ");
  files.files["night.png"] = "x";
  files.fail(FileCall::read, "night.png");
  const commands::ReadImage bad = read_tags("night.png", files);
  CHECK(codes(bad.said) == "disk-io ");
  CHECK(bad.said.front().place.file == "night.png");
}

TEST_CASE("a picture's label is read from a file and from standard input") {
  MemoryFiles files;
  files.files["bag.png"] = png(drawn("TH-01-J", 6));
  files.input = files.files["bag.png"];
  for (const char* file : {"bag.png", "-"}) {
    CAPTURE(file);
    const commands::ReadImage read = read_tags(file, files);
    CHECK(read.said.empty());
    REQUIRE(read.tags.size() == 1);
    CHECK(read.tags.front().figures.id == MotorId{"TH", 1});
  }
}

TEST_CASE("a picture without a label says so, and names another code in it") {
  MemoryFiles files;
  files.files["empty.png"] = png(photo::Grey(300, 300, 190));
  CHECK(codes(read_tags("empty.png", files).said) == "none-label ");
  files.files["other.png"] = png(drawn("hello", 6));
  const commands::ReadImage other = read_tags("other.png", files);
  CHECK(other.tags.empty());
  CHECK(codes(other.said).find("scan-foreign ") != std::string::npos);
}
