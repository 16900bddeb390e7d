using Microsoft.Playwright;

namespace TransportPlanner.Web.Tests.Browser;

internal static class Waits
{
    /// <summary>Waits until the page is at an address and whole. Asks the document: the load event was waited for in vain twice, with the page there and idle.</summary>
    public static async Task WaitForAddressAsync(this IPage page, string address)
    {
        await page.WaitForURLAsync(address, new() { WaitUntil = WaitUntilState.Commit });
        await page.WaitForFunctionAsync("document.readyState === 'complete'");
    }
}
