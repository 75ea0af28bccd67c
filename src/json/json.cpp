// SPDX-License-Identifier: MIT
#include "json/json.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "base/quantity_text.h"
#include "base/text.h"

namespace loopledger::json {
namespace {

constexpr std::size_t kLineWidth = 100;

void append_unit(std::string& to, unsigned unit) { to += fmt::format("\\u{:04x}", unit); }

/// What `printable` finds unfit for a terminal is escaped: that rule has one home.
bool needs_escape(char32_t point) {
  if (point >= 0x20 && point < 0x7f) {
    return false;
  }
  const std::string plain = to_utf8(std::span(&point, 1));
  return printable(plain) != plain;
}

void append_point(std::string& to, char32_t point) {
  switch (point) {
    case U'"':
      to += "\\\"";
      return;
    case U'\\':
      to += "\\\\";
      return;
    case U'\n':
      to += "\\n";
      return;
    case U'\t':
      to += "\\t";
      return;
    default:
      break;
  }
  if (!needs_escape(point)) {
    to += to_utf8(std::span(&point, 1));
  } else if (point < 0x10000) {
    append_unit(to, static_cast<unsigned>(point));
  } else {
    const auto rest = static_cast<unsigned>(point - 0x10000);
    append_unit(to, 0xd800U + (rest >> 10U));
    append_unit(to, 0xdc00U + (rest & 0x3ffU));
  }
}

std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char32_t point : code_points(text)) {
    append_point(out, point);
  }
  return out + '"';
}

}  // namespace

Json::Json(std::string_view text) : scalar_(quoted(text)) {}

Json::Json(double value) {
  if (std::isfinite(value)) {
    scalar_ = shortest(value);
  }
}

Json Json::object() {
  Json json;
  json.form_ = Form::object;
  return json;
}

Json Json::array() {
  Json json;
  json.form_ = Form::array;
  return json;
}

Json& Json::set(std::string_view key, Json value) {
  assert(form_ == Form::object);
  members_.emplace_back(quoted(key), std::move(value));
  return *this;
}

Json& Json::push(Json value) {
  assert(form_ == Form::array);
  members_.emplace_back(std::string(), std::move(value));
  return *this;
}

Json& Json::drop(std::string_view key) {
  assert(form_ == Form::object);
  std::erase_if(members_, [name = quoted(key)](const auto& m) { return m.first == name; });
  return *this;
}

std::string Json::compact() const {
  if (form_ == Form::scalar) {
    return scalar_;
  }
  std::string out(1, form_ == Form::object ? '{' : '[');
  for (const auto& [name, value] : members_) {
    if (out.size() > 1) {
      out += ", ";
    }
    if (form_ == Form::object) {
      out += name + ": ";
    }
    out += value.compact();
  }
  return out + (form_ == Form::object ? '}' : ']');
}

void Json::write(std::string& to, int indent) const {
  const auto lead = static_cast<std::size_t>(indent);
  if (members_.empty() || indent > 0) {
    const std::string line = compact();
    if (members_.empty() || lead + line.size() <= kLineWidth) {
      to += line;
      return;
    }
  }
  to += form_ == Form::object ? '{' : '[';
  bool first = true;
  for (const auto& [name, value] : members_) {
    to += first ? "\n" : ",\n";
    first = false;
    to.append(lead + 2, ' ');
    if (form_ == Form::object) {
      to += name + ": ";
    }
    value.write(to, indent + 2);
  }
  to += '\n';
  to.append(lead, ' ');
  to += form_ == Form::object ? '}' : ']';
}

std::string Json::text() const {
  std::string out;
  write(out, 0);
  return out + '\n';
}

Json to_json(const Diagnostics& diagnostics) {
  Json all = Json::array();
  for (const Diagnostic& d : diagnostics) {
    Json one = Json::object();
    one.set("file", d.place.file.empty() ? Json() : Json(d.place.file));
    one.set("line", d.place.line > 0 ? Json(d.place.line) : Json());
    one.set("column", d.place.column > 0 ? Json(d.place.column) : Json());
    one.set("severity", word(d.severity)).set("code", d.code).set("message", d.message);
    one.set("hint", d.hint.empty() ? Json() : Json(d.hint));
    all.push(std::move(one));
  }
  return all;
}

Json nothing_but(const Diagnostics& diagnostics) {
  return Json::object().set("format", 1).set("diagnostics", to_json(diagnostics));
}

}  // namespace loopledger::json
