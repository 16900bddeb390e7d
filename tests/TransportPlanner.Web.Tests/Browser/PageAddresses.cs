namespace TransportPlanner.Web.Tests.Browser;

/// <summary>
/// Every page of the application, for the checks that hold on all of them. The key is the page's route; the value finds
/// an address of it, and makes first what the page shows, for example a plan.
/// </summary>
public static class PageAddresses
{
    public static readonly Dictionary<string, Func<HttpClient, Task<string>>> Own = [];

    /// <summary>Pages that a library draws: they must not leave the origin, the rest of their design is not ours.</summary>
    public static readonly string[] Borrowed = ["/api-reference"];
}
