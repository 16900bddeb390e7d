using Microsoft.Playwright;
using TransportPlanner.Web.Tests.Browser;

[assembly: AssemblyFixture(typeof(Chromium))]

namespace TransportPlanner.Web.Tests.Browser;

/// <summary>
/// The application on a free port of 127.0.0.1, and a Chromium that can reach nothing else; both start when the first
/// test asks. The browser is the <c>chromium-headless-shell</c> of the search path, the same engine without the windows around
/// it, which opens pages faster, or else <c>chromium</c>: none is ever downloaded. Without one the asking test
/// is skipped and says so; where <c>PLANNER_TESTS_REQUIRE_ALL</c> is set, as tests/run.sh does, it fails.
/// </summary>
public sealed class Chromium : IAsyncDisposable
{
    private static readonly string[] Arguments =
    [
        "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update",
        "--disable-sync", "--disable-dev-shm-usage", "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
    ];

    private readonly PlannerApplication _application = new();
    private readonly Lazy<Task<IBrowser?>> _browser;
    private readonly Lazy<HttpClient> _client;
    private IPlaywright? _playwright;

    public Chromium()
    {
        _browser = new(StartBrowserAsync);
        _client = new(StartApplication);
    }

    /// <summary>A client of the hosted application; its base address is the origin that pages are loaded from.</summary>
    public HttpClient Client => _client.Value;

    /// <summary>Opens the page at <paramref name="address"/>, which must answer 200, as <paramref name="look"/> says.</summary>
    public async Task<OpenPage> OpenAsync(string address, Look look)
    {
        var browser = await _browser.Value;
        Assert.SkipWhen(browser is null, "skipped: no chromium in the search path");
        var origin = Client.BaseAddress!;
        var context = await browser.NewContextAsync(new()
        {
            BaseURL = origin.AbsoluteUri,
            ViewportSize = new() { Width = look.Viewport.Width, Height = look.Viewport.Height },
            ColorScheme = look.Dark ? ColorScheme.Dark : ColorScheme.Light,
            HasTouch = look.Viewport.Touch,
            JavaScriptEnabled = look.Script,
        });
        var opened = new OpenPage(context, await context.NewPageAsync(), origin);
        var response = await opened.Page.GotoAsync(address, new() { WaitUntil = WaitUntilState.Load });
        Assert.Equal(200, response?.Status);
        return opened;
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser.IsValueCreated && await _browser.Value is { } browser)
        {
            await browser.DisposeAsync();
        }

        _playwright?.Dispose();
        await _application.DisposeAsync();
    }

    private HttpClient StartApplication()
    {
        _application.UseKestrel(0);
        _application.StartServer();
        return new() { BaseAddress = new UriBuilder(_application.ClientOptions.BaseAddress) { Host = "127.0.0.1" }.Uri };
    }

    private async Task<IBrowser?> StartBrowserAsync()
    {
        var folders = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator);
        var executable = new[] { "chromium-headless-shell", "chromium" }
            .SelectMany(name => folders.Select(folder => Path.Combine(folder, name)))
            .FirstOrDefault(File.Exists);
        if (executable is null)
        {
            return TestRun.RequiresEverything ? throw new FileNotFoundException("No chromium in the search path.") : null;
        }

        _playwright = await Playwright.CreateAsync();

        // Chromium cannot build its sandbox when it runs as root, as it does in continuous integration.
        return await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = executable,
            ChromiumSandbox = Environment.UserName != "root",
            Args = Arguments,
        });
    }
}
