package org.yardfall;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Data flows one way: a package never uses one that comes after it. */
class ArchitectureTest {

  /** The stages in the order of the flow; those on one line stand side by side. */
  private static final List<List<String>> STAGES =
      List.of(
          List.of("site"),
          List.of("elevation"),
          List.of("water"),
          List.of("runoff"),
          List.of("pipe", "trench"),
          List.of("route"),
          List.of("drain"),
          List.of("fieldwork"),
          List.of("layer"),
          List.of("sheet"));

  private static final JavaClasses CORE =
      new ClassFileImporter()
          .withImportOption(new DoNotIncludeTests())
          .importPackages("org.yardfall");

  @Test
  void aStageUsesOnlyEarlierStages() {
    for (int i = 0; i < STAGES.size(); i++) {
      for (String stage : STAGES.get(i)) {
        for (int j = i; j < STAGES.size(); j++) {
          for (String later : STAGES.get(j)) {
            if (!later.equals(stage)) {
              noClasses()
                  .that()
                  .resideInAPackage("org.yardfall." + stage + "..")
                  .should()
                  .dependOnClassesThat()
                  .resideInAPackage("org.yardfall." + later + "..")
                  .allowEmptyShould(true)
                  .check(CORE);
            }
          }
        }
        noClasses()
            .that()
            .resideInAPackage("org.yardfall." + stage + "..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("org.yardfall")
            .allowEmptyShould(true)
            .because("the facade stands above the stages")
            .check(CORE);
      }
    }
  }

  @Test
  void theLibraryNeitherPrintsNorExits() {
    noClasses()
        .should()
        .accessField(System.class, "out")
        .orShould()
        .accessField(System.class, "err")
        .orShould()
        .callMethod(System.class, "exit", int.class)
        .check(CORE);
  }
}
