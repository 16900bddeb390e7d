using System.Globalization;

namespace TransportPlanner.Benchmarks;

/// <summary>What was typed cannot be used; the message names it.</summary>
internal sealed class BadInputException(string message) : Exception(message);

/// <summary>What stands behind the name of a benchmark: some words, then pairs of <c>--name value</c>.</summary>
internal sealed class Arguments
{
    private readonly Dictionary<string, string> _options = [];

    /// <param name="args">Everything behind the name of the benchmark.</param>
    /// <param name="words">How the words are called that must come first.</param>
    /// <param name="known">Names of the options, without dashes.</param>
    public Arguments(string[] args, string[] words, params string[] known)
    {
        if (args.Length < words.Length || args.Take(words.Length).Any(IsOption))
        {
            throw new BadInputException($"Give {string.Join(' ', words)} first.");
        }

        Words = args[..words.Length];
        for (var i = words.Length; i < args.Length; i += 2)
        {
            if (!IsOption(args[i]) || !known.Contains(args[i][2..]) || i + 1 == args.Length)
            {
                throw new BadInputException($"{args[i]}: unknown, or without a value. Known: {string.Join(", ", known.Select(name => $"--{name}"))}.");
            }

            _options[args[i][2..]] = args[i + 1];
        }
    }

    public IReadOnlyList<string> Words { get; }

    public string? Text(string name) => _options.GetValueOrDefault(name);

    /// <summary>A whole number, 1 or more.</summary>
    public int Count(string name, int otherwise) =>
        Text(name) is not { } text ? otherwise
        : int.TryParse(text, CultureInfo.InvariantCulture, out var number) && number > 0 ? number
        : throw new BadInputException($"--{name}: give a whole number, 1 or more; got {text}.");

    /// <summary>An existing folder, as a full path.</summary>
    public string? Folder(string name) =>
        Text(name) is not { } text ? null : Directory.Exists(text) ? Path.GetFullPath(text) : throw new BadInputException($"--{name}: there is no folder {text}.");

    private static bool IsOption(string arg) => arg.StartsWith("--", StringComparison.Ordinal);
}
