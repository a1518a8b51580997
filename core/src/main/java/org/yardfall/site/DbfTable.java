package org.yardfall.site;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * The attribute table of a shapefile (dBASE III form) as text. The text's encoding is the one that
 * the {@code .cpg} names, else that of the language byte, else UTF-8 where the bytes are such, else
 * Windows-1252.
 *
 * <p>Own code, because the shapefile library's reader gives its values as a database's types.
 *
 * @param fields names of the columns, in file order
 * @param rows the rows, in file order; empty for a deleted one; blank values are left out
 */
record DbfTable(List<String> fields, List<Optional<Map<String, String>>> rows) {

  private static final int HEADER_BYTES = 32;
  private static final int LANGUAGE_AT = 29;
  private static final byte FIELDS_END = 0x0D;

  /** Encodings by the language byte (dBASE language drivers); others are guessed. */
  private static final Map<Integer, String> LANGUAGES =
      Map.ofEntries(
          Map.entry(0x01, "IBM437"),
          Map.entry(0x02, "IBM850"),
          Map.entry(0x03, "windows-1252"),
          Map.entry(0x08, "IBM865"),
          Map.entry(0x09, "IBM437"),
          Map.entry(0x0A, "IBM850"),
          Map.entry(0x13, "windows-31j"),
          Map.entry(0x1B, "IBM437"),
          Map.entry(0x4D, "GBK"),
          Map.entry(0x4E, "x-windows-949"),
          Map.entry(0x4F, "Big5"),
          Map.entry(0x57, "windows-1252"),
          Map.entry(0x58, "windows-1252"),
          Map.entry(0x59, "windows-1252"),
          Map.entry(0x64, "IBM852"),
          Map.entry(0x65, "IBM866"),
          Map.entry(0xC8, "windows-1250"),
          Map.entry(0xC9, "windows-1251"),
          Map.entry(0xCA, "windows-1254"),
          Map.entry(0xCB, "windows-1253"),
          Map.entry(0xCC, "windows-1257"));

  private record Column(String name, char type, int length) {}

  static DbfTable read(Path dbf, Optional<Path> cpg) throws IOException {
    byte[] bytes = Files.readAllBytes(dbf);
    if (bytes.length < HEADER_BYTES) {
      throw new IOException("the .dbf is cut short");
    }
    ByteBuffer header = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    int records = header.getInt(4);
    int start = Short.toUnsignedInt(header.getShort(8));
    int width = Short.toUnsignedInt(header.getShort(10));
    if (records < 0 || start > bytes.length || start + (long) records * width > bytes.length) {
      throw new IOException("the .dbf is cut short");
    }
    Optional<Charset> declared = declared(cpg, bytes[LANGUAGE_AT] & 0xff);
    List<Column> columns = new ArrayList<>();
    for (int at = HEADER_BYTES;
        at + HEADER_BYTES <= start && bytes[at] != FIELDS_END;
        at += HEADER_BYTES) {
      int end = at;
      while (end < at + 11 && bytes[end] != 0) {
        end++;
      }
      columns.add(
          new Column(
              decode(bytes, at, end - at, declared), (char) bytes[at + 11], bytes[at + 16] & 0xff));
    }
    List<Optional<Map<String, String>>> rows = new ArrayList<>();
    for (int r = 0; r < records; r++) {
      int at = start + r * width;
      rows.add(
          bytes[at] == '*' ? Optional.empty() : Optional.of(row(bytes, at + 1, columns, declared)));
    }
    return new DbfTable(columns.stream().map(Column::name).toList(), rows);
  }

  private static Map<String, String> row(
      byte[] bytes, int start, List<Column> columns, Optional<Charset> declared) {
    Map<String, String> row = new LinkedHashMap<>();
    int at = start;
    for (Column column : columns) {
      String text = decode(bytes, at, column.length(), declared).replace('\0', ' ').strip();
      at += column.length();
      boolean numeric = column.type() == 'N' || column.type() == 'F';
      if (!text.isEmpty() && !(numeric && text.startsWith("*"))) {
        row.put(column.name(), numeric ? number(text) : text);
      }
    }
    return row;
  }

  private static String number(String text) {
    try {
      return Numerals.plain(new BigDecimal(text));
    } catch (NumberFormatException e) {
      return text;
    }
  }

  private static Optional<Charset> declared(Optional<Path> cpg, int language) throws IOException {
    if (cpg.isPresent()) {
      String name = Files.readString(cpg.get(), StandardCharsets.ISO_8859_1).strip();
      String digits = name.replaceAll("(?i)^(?:ANSI|CP|OEM)?[ _-]*(\\d{3,5})$", "$1");
      for (String candidate :
          List.of(
              name,
              digits.equals("65001") ? "UTF-8" : digits,
              "windows-" + digits,
              "IBM" + digits,
              digits.replaceFirst("^8859[-_]?(\\d+)$", "ISO-8859-$1"))) {
        if (isSupported(candidate)) {
          return Optional.of(Charset.forName(candidate));
        }
      }
    }
    return Optional.ofNullable(LANGUAGES.get(language))
        .filter(DbfTable::isSupported)
        .map(Charset::forName);
  }

  private static boolean isSupported(String name) {
    return name.toUpperCase(Locale.ROOT).matches("[A-Z0-9][A-Z0-9:._+-]*")
        && Charset.isSupported(name);
  }

  private static String decode(byte[] bytes, int at, int length, Optional<Charset> declared) {
    if (declared.isPresent()) {
      return new String(bytes, at, length, declared.get());
    }
    try {
      return StandardCharsets.UTF_8
          .newDecoder()
          .onMalformedInput(CodingErrorAction.REPORT)
          .decode(ByteBuffer.wrap(bytes, at, length))
          .toString();
    } catch (CharacterCodingException e) {
      return new String(bytes, at, length, Charset.forName("windows-1252"));
    }
  }
}
