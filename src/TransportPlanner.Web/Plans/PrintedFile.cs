namespace TransportPlanner.Web.Plans;

/// <summary>A page that is also given as one file with its styles inside.</summary>
internal interface IPrintedFile
{
    /// <summary>Styles of the file; null on the page, which links them.</summary>
    string? Styles { get; }

    /// <summary>What the file does not know once it has left.</summary>
    string FileCaution { get; }
}

internal static class PrintedFile
{
    private static readonly string[] Sheets = ["lib/modern-normalize/modern-normalize.css", "css/sheet.css", "css/pack.css"];

    /// <summary>The same styles as the page's, so that the file prints the same.</summary>
    public static async Task<string> StylesAsync(IWebHostEnvironment host, CancellationToken cancellationToken)
    {
        List<string> styles = [];
        foreach (var path in Sheets)
        {
            using var reader = new StreamReader(host.WebRootFileProvider.GetFileInfo(path).CreateReadStream());
            styles.Add(await reader.ReadToEndAsync(cancellationToken));
        }

        return string.Join('\n', styles);
    }
}
