using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace TransportPlanner.Web.Tests.Browser;

/// <summary>A page in its own browser context, with what it asked for and what it complained about.</summary>
public sealed partial class OpenPage : IAsyncDisposable
{
    private readonly IBrowserContext _context;

    public OpenPage(IBrowserContext context, IPage page, Uri origin)
    {
        _context = context;
        Page = page;
        context.Request += (_, request) =>
        {
            if (new Uri(request.Url) is { Scheme: not ("data" or "blob") } address && address.Authority != origin.Authority)
            {
                ForeignRequests.Add(request.Url);
            }
        };
        page.PageError += (_, error) => Errors.Add(error);
        page.Console += (_, message) =>
        {
            if (message.Type == "error")
            {
                Errors.Add(message.Text);
            }
        };
    }

    public IPage Page { get; }

    /// <summary>Addresses asked for outside the application's origin. The browser cannot reach them.</summary>
    public List<string> ForeignRequests { get; } = [];

    /// <summary>Uncaught errors and errors written to the console.</summary>
    public List<string> Errors { get; } = [];

    /// <summary>The text that a reader sees, on the screen or, with <paramref name="media"/> print, on paper.</summary>
    public async Task<string> VisibleTextAsync(Media media)
    {
        await Page.EmulateMediaAsync(new() { Media = media });
        return await Page.Locator("body").InnerTextAsync();
    }

    /// <summary>Where a picture is kept, or null unless <c>PLANNER_SCREENSHOTS</c> names a folder.</summary>
    public static string? PicturePath(string name) => TestRun.ScreenshotFolder is { } folder ? Path.Combine(folder, name) : null;

    /// <summary>Saves a picture of the whole page where pictures are kept.</summary>
    public async Task SavePictureAsync(string name)
    {
        if (PicturePath(name + ".png") is { } path)
        {
            await Page.ScreenshotAsync(new() { Path = path, FullPage = true });
        }
    }

    /// <summary>How many pages of <c>A4</c> or <c>Letter</c> the page prints on.</summary>
    public async Task<int> PrintedPagesAsync(string paper)
    {
        var pdf = Encoding.Latin1.GetString(await Page.PdfAsync(new() { Format = paper, PreferCSSPageSize = false }));

        // A long print is a tree of such nodes, and the root counts all of them.
        return PageCount().Matches(pdf).Max(node => int.Parse(node.Groups[1].Value, CultureInfo.InvariantCulture));
    }

    [GeneratedRegex(@"/Type\s*/Pages\b[^>]*?/Count (\d+)")]
    private static partial Regex PageCount();

    public ValueTask DisposeAsync() => _context.DisposeAsync();
}
