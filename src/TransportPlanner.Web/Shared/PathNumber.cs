namespace TransportPlanner.Web.Shared;

/// <summary>
/// Numbers in addresses. The server decodes everything of a path but <c>%2F</c>, so that a number with a slash in it arrives half encoded.
/// </summary>
internal static class PathNumber
{
    /// <summary>The one of the known numbers that a part of a path means, as it stands or with its slashes decoded; else the part as it is.</summary>
    public static string? Of(string? part, IEnumerable<string> known) =>
        part is null || !part.Contains("%2F", StringComparison.OrdinalIgnoreCase) || known.Contains(part) ? part : part.Replace("%2F", "/", StringComparison.OrdinalIgnoreCase);
}
