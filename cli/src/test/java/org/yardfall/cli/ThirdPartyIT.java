package org.yardfall.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class ThirdPartyIT {

  private static final Path PACKAGE = Starter.YARDFALL.getParent().getParent();

  @Test
  void everyJarOfThePackageIsListedWithItsLicence() throws IOException {
    String listed = Files.readString(PACKAGE.resolve("THIRD-PARTY.md"));
    List<String> jars;
    try (Stream<Path> lib = Files.list(PACKAGE.resolve("lib"))) {
      jars =
          lib.map(file -> file.getFileName().toString())
              .filter(name -> name.endsWith(".jar") && !name.startsWith("yardfall-"))
              .map(name -> name.replaceFirst("-[0-9].*", ""))
              .sorted()
              .toList();
    }
    assertTrue(jars.size() > 20, jars.toString());
    List<String> missing =
        jars.stream()
            .filter(
                jar -> !Pattern.compile("\\b" + Pattern.quote(jar) + "\\b").matcher(listed).find())
            .toList();
    assertEquals(List.of(), missing);
  }

  @Test
  void theLicenceIsThere() throws IOException {
    assertTrue(Files.readString(PACKAGE.resolve("LICENSE")).contains("Apache License"));
  }
}
