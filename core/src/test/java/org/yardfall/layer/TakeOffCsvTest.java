package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.yardfall.drain.TakeOff;
import org.yardfall.site.UnitSystem;

class TakeOffCsvTest {

  @TempDir Path folder;

  @Test
  void thereIsARowForEachLine() throws IOException {
    Result result = ResultFixture.metric();
    List<TakeOff.Line> lines =
        result.designs().stream().flatMap(d -> d.takeOff().lines().stream()).toList();
    List<CSVRecord> rows = write(result, UnitSystem.METRIC);
    assertEquals(lines.size(), rows.size());
    for (int i = 0; i < rows.size(); i++) {
      assertEquals(lines.get(i).code(), rows.get(i).get("code"));
      assertEquals(lines.get(i).needed(), Double.parseDouble(rows.get(i).get("needed")), 0.006);
    }
  }

  @Test
  void feetAreFeetAndTheAmountIsTheSame() throws IOException {
    List<CSVRecord> si = write(ResultFixture.metric(), UnitSystem.METRIC);
    List<CSVRecord> us = write(ResultFixture.metric(), UnitSystem.US);
    int lengths = 0;
    for (int i = 0; i < si.size(); i++) {
      assertEquals(si.get(i).get("amount"), us.get(i).get("amount"));
      if (si.get(i).get("unit").equals("m")) {
        lengths++;
        assertEquals("ft", us.get(i).get("unit"));
        assertEquals(
            Double.parseDouble(si.get(i).get("needed")),
            Double.parseDouble(us.get(i).get("needed")) * 0.3048,
            0.01);
      }
    }
    assertTrue(lengths > 0);
  }

  private List<CSVRecord> write(Result result, UnitSystem units) throws IOException {
    Path file = folder.resolve("take-off.csv");
    TakeOffCsv.write(result.designs(), units, file);
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (Reader in = Files.newBufferedReader(file);
        CSVParser table = CSVParser.parse(in, format)) {
      return table.getRecords();
    }
  }
}
