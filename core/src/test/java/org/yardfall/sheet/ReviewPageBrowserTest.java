package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.stream.Stream;
import org.geotools.api.parameter.GeneralParameterValue;
import org.geotools.coverage.grid.GridCoverageFactory;
import org.geotools.gce.geotiff.GeoTiffWriter;
import org.geotools.geometry.jts.ReferencedEnvelope;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebDriverException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFixture;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.UnitSystem;

/**
 * The review page in a browser with the network off; skipped where none is installed, unless the
 * environment says {@code YARDFALL_BROWSER=required}.
 */
@Tag("browser")
class ReviewPageBrowserTest {

  private static final String MISSING =
      "no Chromium with its driver on the PATH: the page was not opened in a browser";

  private static final double HALF_A_PIXEL = 0.5;

  @TempDir static Path folder;

  private static ChromeDriver browser;

  /** Its word that the browser is newer than it knows is no news here. */
  private static final Logger SELENIUM = Logger.getLogger("org.openqa.selenium");

  @BeforeAll
  static void start() {
    SELENIUM.setLevel(Level.SEVERE);
    Optional<Path> chromium = onPath("chromium").or(() -> onPath("chromium-browser"));
    Optional<Path> driver = onPath("chromedriver");
    checkPresent(chromium.isPresent() && driver.isPresent(), MISSING);
    ChromeOptions options = new ChromeOptions();
    options.setBinary(chromium.get().toFile());
    options.addArguments(
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-dev-shm-usage",
        "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE localhost",
        "--window-size=1300,1000");
    LoggingPreferences log = new LoggingPreferences();
    log.enable(LogType.BROWSER, Level.ALL);
    options.setCapability(ChromeOptions.LOGGING_PREFS, log);
    try {
      browser =
          new ChromeDriver(
              new ChromeDriverService.Builder()
                  .usingDriverExecutable(driver.get().toFile())
                  .build(),
              options);
    } catch (WebDriverException e) {
      checkPresent(false, "Chromium did not start: the page was not opened in a browser");
    }
  }

  private static void checkPresent(boolean present, String missing) {
    if ("required".equals(System.getenv("YARDFALL_BROWSER"))) {
      assertTrue(present, missing);
    }
    assumeTrue(present, missing);
  }

  @AfterAll
  static void stop() {
    if (browser != null) {
      browser.quit();
    }
  }

  @Test
  void itOpensWithoutAComplaint() throws Exception {
    open(ResultFixture.metric());
    checkConsole();
    assertTrue(browser.findElements(By.cssSelector("#map path")).size() > 10);
    assertTrue(browser.findElement(By.id("minds")).getText().contains("buried utilities"));
  }

  @Test
  void textFromTheDataDoesNothing() throws Exception {
    open(ResultFixture.withIds(HostileText.ID));
    checkConsole();
    assertEquals("Invented lot", browser.getTitle());
    assertEquals(0, browser.findElements(By.cssSelector("img[src=x]")).size());
    assertTrue(browser.findElement(By.id("lot")).getText().contains("<script>"));
    long wide =
        ((Number) browser.executeScript("return document.documentElement.scrollWidth - innerWidth"))
            .longValue();
    assertTrue(wide <= 0, "the page is " + wide + " pixels too wide");
  }

  @Test
  void layersAreSwitchedOffAndOn() throws Exception {
    open(ResultFixture.metric());
    int all = paths();
    WebElement box = layer("Buildings, slabs and obstacles");
    box.click();
    int fewer = paths();
    assertTrue(fewer < all);
    box.sendKeys(Keys.SPACE);
    assertEquals(all, paths());
  }

  @Test
  void aClickOnARouteShowsItsProfile() throws Exception {
    open(ResultFixture.metric());
    assertTrue(browser.findElement(By.id("profile")).getText().contains("R1 main line"));
    browser.executeScript(
        "const p = document.querySelector('path.route-R2'), r = p.getBoundingClientRect();"
            + "const at = p.getPointAtLength(40).matrixTransform(p.getScreenCTM());"
            + "p.dispatchEvent(new MouseEvent('click',"
            + " {bubbles: true, clientX: at.x, clientY: at.y, view: window}));");
    assertTrue(browser.findElement(By.id("profile")).getText().contains("R2 main line"));
  }

  /** The ledger says what each flow is with the route that is chosen. */
  @Test
  void theLedgerFollowsTheRoute() throws Exception {
    open(ResultFixture.metric());
    assertTrue(heads().contains("with R1"), heads());
    browser.findElement(By.cssSelector("#routes button[value=R2]")).click();
    assertTrue(heads().contains("with R2"), heads());
  }

  private static String heads() {
    return browser.findElement(By.cssSelector("#ledger thead")).getText();
  }

  @Test
  void theProfileIsReadByKeyboardAndShownOnTheMap() throws Exception {
    open(ResultFixture.metric());
    int before = paths();
    WebElement profile = browser.findElement(By.cssSelector("#profile svg"));
    profile.sendKeys(Keys.ARROW_RIGHT);
    String first = browser.findElement(By.cssSelector(".readout")).getText();
    profile.sendKeys(Keys.ARROW_RIGHT);
    assertTrue(first.startsWith("Station 1.0 m: ground 242.39, invert 241.89"), first);
    assertNotEquals(first, browser.findElement(By.cssSelector(".readout")).getText());
    assertEquals(before + 1, paths());
  }

  /** The relief shows 80 m by 70 m; the drain begins 15 m from its west and its north edge. */
  @Test
  void drainAndReliefCoincide() throws Exception {
    open(ResultFixture.metric());
    double[] off =
        numbers(
            "const i = document.querySelector('img.picture-relief').getBoundingClientRect();"
                + "const p = document.querySelector('path.route-R1');"
                + "const a = p.getPointAtLength(0).matrixTransform(p.getScreenCTM());"
                + "return [a.x - i.left - i.width * 15 / 80, a.y - i.top - i.height * 15 / 70]");
    assertArrayEquals(new double[] {0, 0}, off, HALF_A_PIXEL);
  }

  /**
   * The photograph has a red square round the lot's north-east corner and one round the drain's
   * upper end. On the page, at several scales, their middles lie where those two are drawn.
   */
  @Test
  void photographParcelAndDrainCoincide() throws Exception {
    open(ResultFixture.onPhoto(photo()));
    for (String step : new String[] {"in", "out", "out", "out"}) {
      double[] off =
          numbers(
              "const i = document.querySelector('img.picture-photo'), r = i.getBoundingClientRect();"
                  + "const c = document.createElement('canvas');"
                  + "c.width = i.naturalWidth; c.height = i.naturalHeight;"
                  + "const g = c.getContext('2d'); g.drawImage(i, 0, 0);"
                  + "const d = g.getImageData(0, 0, c.width, c.height).data;"
                  + "function square(west) { let n = 0, x = 0, y = 0;"
                  + "  for (let row = 0; row < c.height; row++)"
                  + "    for (let col = 0; col < c.width; col++) {"
                  + "      const k = 4 * (row * c.width + col), red = d[k] - d[k + 1];"
                  + "      if (red > 100 && (col < c.width / 2) === west) {"
                  + "        n += red; x += red * (col + 0.5); y += red * (row + 0.5); } }"
                  + "  return { x: r.left + x / n * r.width / c.width,"
                  + "    y: r.top + y / n * r.height / c.height }; }"
                  + "function ends(path) { const p = document.querySelector(path);"
                  + "  const b = p.ownerSVGElement.getBoundingClientRect();"
                  + "  const v = p.ownerSVGElement.viewBox.baseVal;"
                  + "  const n = p.getAttribute('d').match(/-?[\\d.]+/g).map(Number), all = [];"
                  + "  for (let k = 0; k + 1 < n.length; k += 2)"
                  + "    all.push({ x: b.left + n[k] - v.x, y: b.top + n[k + 1] - v.y });"
                  + "  return all; }"
                  + "const corner = ends('path.layer-lot').reduce("
                  + "  (a, b) => b.x - b.y > a.x - a.y ? b : a);"
                  + "const end = ends('path.route-R1')[0];"
                  + "const east = square(false), west = square(true);"
                  + "return [corner.x - east.x, corner.y - east.y, end.x - west.x, end.y - west.y];");
      assertArrayEquals(new double[4], off, HALF_A_PIXEL, "before zooming " + step);
      browser.findElement(By.cssSelector(".leaflet-control-zoom-" + step)).click();
    }
  }

  /** Green ground round the lot, in pixels of 0.1 m, with the two squares of 1 m in red. */
  private static Path photo() throws Exception {
    BufferedImage image = new BufferedImage(800, 700, BufferedImage.TYPE_3BYTE_BGR);
    Graphics2D g = image.createGraphics();
    g.setColor(new Color(40, 120, 40));
    g.fillRect(0, 0, 800, 700);
    g.setColor(Color.RED);
    g.fillRect(695, 95, 10, 10);
    g.fillRect(145, 145, 10, 10);
    g.dispose();
    Path file = folder.resolve("photo.tif");
    GeoTiffWriter writer = new GeoTiffWriter(file.toFile());
    writer.write(
        new GridCoverageFactory()
            .create(
                "photo",
                image,
                new ReferencedEnvelope(
                    499990, 500070, 4982990, 4983060, CrsLookup.of("EPSG:26915").crs())),
        new GeneralParameterValue[0]);
    writer.dispose();
    return file;
  }

  private static double[] numbers(String script) {
    return ((List<?>) browser.executeScript(script))
        .stream().mapToDouble(number -> ((Number) number).doubleValue()).toArray();
  }

  @Test
  void aPhoneNeedsNoSidewaysScrolling() throws Exception {
    browser.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        java.util.Map.of("width", 380, "height", 740, "deviceScaleFactor", 2, "mobile", true));
    try {
      open(ResultFixture.metric());
      assertTrue(
          ((Number) browser.executeScript("return document.documentElement.scrollWidth")).intValue()
              <= 380);
    } finally {
      browser.executeCdpCommand("Emulation.clearDeviceMetricsOverride", java.util.Map.of());
    }
  }

  private static void open(Result result) throws Exception {
    Path file = folder.resolve("review.html");
    ReviewPage.write(result, UnitSystem.METRIC, file);
    browser.get(file.toUri().toString());
    assertEquals(
        "yes", browser.executeScript("return document.documentElement.dataset.ready || 'no'"));
  }

  private static void checkConsole() {
    assertEquals(List.of(), browser.manage().logs().get(LogType.BROWSER).getAll());
  }

  private static int paths() {
    return browser.findElements(By.cssSelector("#map path")).size();
  }

  private static WebElement layer(String title) {
    return browser.findElement(
        By.xpath("//div[@id='layers']/label[span='" + title + "']/input[@type='checkbox']"));
  }

  private static Optional<Path> onPath(String name) {
    String path = Optional.ofNullable(System.getenv("PATH")).orElse("");
    return Stream.of(path.split(File.pathSeparator, -1))
        .filter(folder -> !folder.isEmpty())
        .map(folder -> Path.of(folder, name))
        .filter(Files::isExecutable)
        .findFirst();
  }
}
