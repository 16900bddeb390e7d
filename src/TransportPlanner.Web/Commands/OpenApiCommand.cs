using System.CommandLine;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Commands;

/// <summary><c>openapi</c>: writes the document that the server would serve.</summary>
internal static class OpenApiCommand
{
    public static Command Create()
    {
        var file = new Option<string?>("--output") { Description = "File to write; default the terminal.", HelpName = "file" };
        var command = new Command("openapi", "Writes the OpenAPI 3.1 document of the API.") { file };
        command.SetAction(async (parsed, cancellationToken) =>
        {
            var text = await DocumentAsync(cancellationToken);
            if (parsed.GetValue(file) is not { } path)
            {
                await parsed.InvocationConfiguration.Output.WriteAsync(text);
                return PlannerCommands.Done;
            }

            try
            {
                await File.WriteAllTextAsync(path, text, cancellationToken);
                return PlannerCommands.Done;
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                await parsed.InvocationConfiguration.Error.WriteLineAsync($"--output: {path} cannot be written: {e.Message}");
                return PlannerCommands.BadInput;
            }
        });
        return command;
    }

    private static async Task<string> DocumentAsync(CancellationToken cancellationToken)
    {
        await using var app = Program.Build([]);

        // Endpoints become visible to the generator when routing is set up, which a server that never starts does not do.
        app.UseRouting();
        app.UseEndpoints(_ => { });
        await using var scope = app.Services.CreateAsyncScope();
        var document = await scope.ServiceProvider.GetRequiredKeyedService<IOpenApiDocumentProvider>(OpenApi.DocumentName).GetOpenApiDocumentAsync(cancellationToken);
        return await document.SerializeAsJsonAsync(OpenApiSpecVersion.OpenApi3_1, cancellationToken) + "\n";
    }
}
