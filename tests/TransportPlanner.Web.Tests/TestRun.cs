namespace TransportPlanner.Web.Tests;

/// <summary>What the environment says about this run of the tests.</summary>
public static class TestRun
{
    /// <summary>Set by tests/run.sh: a server or browser that is missing fails the test instead of skipping it.</summary>
    public static bool RequiresEverything => Environment.GetEnvironmentVariable("PLANNER_TESTS_REQUIRE_ALL") is { Length: > 0 };

    /// <summary>Folder for pictures of every page and viewport, or null.</summary>
    public static string? ScreenshotFolder => Environment.GetEnvironmentVariable("PLANNER_SCREENSHOTS") is { Length: > 0 } folder ? folder : null;
}
